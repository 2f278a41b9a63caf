#pragma once
// One function per thing the server can be asked; handlers.cpp is the table.
#include "route.h"

namespace hw::server {

// Clients: handlers_clients.cpp
[[nodiscard]] Result<Reply> find_clients(Service&, const Request&);
[[nodiscard]] Result<Reply> add_client(Service&, const Request&);
[[nodiscard]] Result<Reply> add_card(Service&, const Request&);
[[nodiscard]] Result<Reply> show_client(Service&, const Request&);
[[nodiscard]] Result<Reply> record_client(Service&, const Request&);
[[nodiscard]] Result<Reply> erase_client(Service&, const Request&);
[[nodiscard]] Result<Reply> next_of_client(Service&, const Request&);
[[nodiscard]] Result<Reply> export_client(Service&, const Request&);

// Visits: handlers_visits.cpp
[[nodiscard]] Result<Reply> visits_of_day(Service&, const Request&);
[[nodiscard]] Result<Reply> book_visit(Service&, const Request&);
[[nodiscard]] Result<Reply> show_visit(Service&, const Request&);
[[nodiscard]] Result<Reply> record_visit(Service&, const Request&);
[[nodiscard]] Result<Reply> plan_visit(Service&, const Request&);
[[nodiscard]] Result<Reply> finish_visit(Service&, const Request&);
[[nodiscard]] Result<Reply> calendar(Service&, const Request&);
[[nodiscard]] Result<Reply> sheet(Service&, const Request&);

// A visit under way: handlers_run.cpp
[[nodiscard]] Result<Reply> run_of_visit(Service&, const Request&);
[[nodiscard]] Result<Reply> seen_on_visit(Service&, const Request&);

// Planning: handlers_plan.cpp, handlers_chart.cpp, handlers_bowl.cpp
[[nodiscard]] Result<Reply> plan_head(Service&, const Request&);
[[nodiscard]] Result<Reply> chart(Service&, const Request&);
[[nodiscard]] Result<Reply> tiles(Service&, const Request&);
[[nodiscard]] Result<Reply> bowl(Service&, const Request&);
[[nodiscard]] Result<Reply> workbench(Service&, const Request&);  // handlers_workbench.cpp
[[nodiscard]] Result<Reply> looks(Service&, const Request&);
[[nodiscard]] Result<Reply> levels(Service&, const Request&);

// The drill for the eye: handlers_drills.cpp
[[nodiscard]] Result<Reply> drills(Service&, const Request&);
[[nodiscard]] Result<Reply> drill_strand(Service&, const Request&);
[[nodiscard]] Result<Reply> answer_drill(Service&, const Request&);

// A past visit step by step: handlers_replay.cpp
[[nodiscard]] Result<Reply> replay_of_visit(Service&, const Request&);
[[nodiscard]] Result<Reply> replay_chart(Service&, const Request&);
[[nodiscard]] Result<Reply> replays(Service&, const Request&);

// The shelf: handlers_shelf.cpp
[[nodiscard]] Result<Reply> shelf(Service&, const Request&);
[[nodiscard]] Result<Reply> add_product(Service&, const Request&);
[[nodiscard]] Result<Reply> record_product(Service&, const Request&);
[[nodiscard]] Result<Reply> ledger(Service&, const Request&);
[[nodiscard]] Result<Reply> reorder(Service&, const Request&);

// The salon: handlers_salon.cpp
[[nodiscard]] Result<Reply> health(Service&, const Request&);
[[nodiscard]] Result<Reply> me(Service&, const Request&);
[[nodiscard]] Result<Reply> salon(Service&, const Request&);
[[nodiscard]] Result<Reply> set_salon(Service&, const Request&);
[[nodiscard]] Result<Reply> evidence(Service&, const Request&);
[[nodiscard]] Result<Reply> backups(Service&, const Request&);
[[nodiscard]] Result<Reply> make_backup(Service&, const Request&);

// Photos: handlers_photo.cpp
[[nodiscard]] Result<Reply> photo(Service&, const Request&);
[[nodiscard]] Result<Reply> keep_photo(Service&, const Request&);
[[nodiscard]] Result<Reply> read_kept_photo(Service&, const Request&);
[[nodiscard]] Result<Reply> compare_kept_photos(Service&, const Request&);
[[nodiscard]] Result<Reply> chart_sheet(Service&, const Request&);
[[nodiscard]] Result<Reply> colour_words(Service&, const Request&);

}  // namespace hw::server

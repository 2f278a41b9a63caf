#include "handlers.h"

#include <array>

namespace hw::server {
namespace {

constexpr std::size_t kPhotoBytes = 12U << 20U;  // one photo; house rule
constexpr std::size_t kJson = 1U << 20U;
constexpr std::string_view kAsJson = "application/json";
constexpr bool kKeepsNothing = false;

}  // namespace

std::span<const Route> routes() {
  using enum Role;
  static constexpr std::array kAll{
      Route{"GET", "/api/v1/health", none, "the version, and what time the server has", health},
      Route{"GET", "/api/v1/me", assistant, "this device, its role and its salon", me},
      Route{"GET", "/api/v1/salon", assistant, "name, money, people, prices", salon},
      Route{"POST", "/api/v1/salon", owner, "the same, set anew", set_salon},
      Route{"GET", "/api/v1/looks", assistant, "trade words for a target", looks},
      Route{"GET", "/api/v1/levels", assistant, "natural hair by half levels", levels},

      Route{"GET", "/api/v1/clients", assistant, "clients found by any part of name or number",
            find_clients},
      Route{"POST", "/api/v1/clients", assistant, "a new client", add_client},
      Route{"POST", "/api/v1/cards", assistant, "an old paper card", add_card},
      Route{"GET", "/api/v1/clients/{id}", assistant, "all that is known of a client", show_client},
      Route{"POST", "/api/v1/clients/{id}/facts", assistant, "facts about a client", record_client},
      Route{"POST", "/api/v1/clients/{id}/erase", owner, "the person goes, by law", erase_client},
      Route{"GET", "/api/v1/clients/{id}/next", colourist, "the case of the next visit",
            next_of_client},
      Route{"GET", "/api/v1/clients/{id}/export", owner, "a client's part of the book",
            export_client},

      Route{"GET", "/api/v1/visits", assistant, "the visits of a day", visits_of_day},
      Route{"POST", "/api/v1/visits", assistant, "a visit is booked", book_visit},
      Route{"GET", "/api/v1/visits/{id}", assistant, "all of a visit", show_visit},
      Route{"POST", "/api/v1/visits/{id}/facts", assistant, "what happens in a visit",
            record_visit},
      Route{"POST", "/api/v1/visits/{id}/plan", colourist, "plans a visit and keeps the choice",
            plan_visit},
      Route{"POST", "/api/v1/visits/{id}/finish", colourist, "ends a visit and learns from it",
            finish_visit},
      Route{"GET", "/api/v1/visits/{id}/run", assistant, "where a visit stands now", run_of_visit},
      Route{"POST", "/api/v1/visits/{id}/seen", assistant, "somebody heard a hard stop",
            seen_on_visit, kJson, kAsJson, kKeepsNothing},
      Route{"GET", "/api/v1/visits/{id}/sheets/{sheet}", assistant, "a paper of a visit, as PDF",
            sheet},
      Route{"GET", "/api/v1/visits/{id}/replay", colourist, "a past visit, step by step",
            replay_of_visit},
      Route{"GET", "/api/v1/visits/{id}/replay/chart", colourist,
            "its strand chart as the plan stood after some looks", replay_chart},
      Route{"GET", "/api/v1/replays", colourist, "past visits for teaching, without names",
            replays},
      Route{"GET", "/api/v1/calendar.ics", colourist, "visits to come and dates to come again",
            calendar},

      Route{"POST", "/api/v1/plan", colourist, "the ways to a colour; nothing is kept", plan_head,
            kJson, kAsJson, kKeepsNothing},
      Route{"POST", "/api/v1/chart", colourist, "a strand chart as numbers", chart, kJson, kAsJson,
            kKeepsNothing},
      Route{"POST", "/api/v1/tiles", colourist, "the result in three lights", tiles, kJson, kAsJson,
            kKeepsNothing},
      Route{"POST", "/api/v1/workbench", assistant, "a strand on the workbench, of nobody's head",
            workbench, kJson, kAsJson, kKeepsNothing},
      Route{"POST", "/api/v1/bowl", assistant, "a bowl while it is poured", bowl, kJson, kAsJson,
            kKeepsNothing},

      Route{"GET", "/api/v1/drills", assistant, "what drills say of each reader's eye", drills},
      Route{"POST", "/api/v1/drills", assistant, "a strand of the drill, read", answer_drill},
      Route{"GET", "/api/v1/drills/{seed}", assistant, "a strand to read, without its level",
            drill_strand},

      Route{"GET", "/api/v1/shelf", assistant, "products by the gram", shelf},
      Route{"POST", "/api/v1/shelf", colourist, "a product", add_product},
      Route{"GET", "/api/v1/shelf/reorder", assistant, "what to order", reorder},
      Route{"POST", "/api/v1/shelf/{id}/facts", assistant, "what moves on the shelf",
            record_product},
      Route{"GET", "/api/v1/shelf/{id}/ledger", assistant, "what moved", ledger},

      Route{"GET", "/api/v1/evidence", colourist, "how past plans came out", evidence},
      Route{"GET", "/api/v1/backups", owner, "copies of the book", backups},
      Route{"POST", "/api/v1/backups", owner, "makes one", make_backup},
      Route{"GET", "/api/v1/photos/{sha256}", assistant, "a photo", photo},
      Route{"POST", "/api/v1/photos", assistant, "keeps a photo", keep_photo, kPhotoBytes,
            "image/jpeg"},
      Route{"POST", "/api/v1/readings", colourist, "a strand in a kept photo, read along a line",
            read_kept_photo, kJson, kAsJson, kKeepsNothing},
      Route{"POST", "/api/v1/readings/change", colourist, "two kept photos of one strand",
            compare_kept_photos, kJson, kAsJson, kKeepsNothing},
      Route{"GET", "/api/v1/colours", assistant, "what a colour is called and how it is painted",
            colour_words},
      Route{"GET", "/api/v1/sheets/chart", assistant, "the sheet to lay round a chart, as PDF",
            chart_sheet},
  };
  static_assert(Route{}.most_body == kJson);
  return kAll;
}

}  // namespace hw::server

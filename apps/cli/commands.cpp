#include <array>

#include "command.h"
#include "open_book.h"

namespace hw::apps {
namespace {

constexpr std::array kPlanOptions{
    Option{"--shelf", "FILE", "the shelf, in place of the one the case names"},
    Option{"--chart", "FILE.png", "draw the strand chart of the first course"},
    Option{"--chart-lifted", "FILE.png", "the same with the shadows lifted"},
    Option{"--fade-chart", "FILE.png", "draw how its colour fades and grows out by week"},
    Option{"--tiles", "FILE.png", "draw its result in three lights"},
    Option{"--check", "FILE", "readings so far (schemas/checks.schema.json); plans the rest"},
    Option{"--reach", "", "which looks this head can get to today"},
    Option{"--why", "", "what each part of the answer rests on"},
    Option{"--client", "ID", "in place of FILE: the case as the book has it now"},
    Option{"--at", "MOMENT", "of --client: when the visit is; else now"},
    kBookOption,
};
constexpr std::array kBookOptions{kBookOption, kByOption};
constexpr std::array kBookOnly{kBookOption};
constexpr std::array kClientOptions{
    kBookOption, kByOption, Option{"--write", "", "of import: add them, after a look at the list"}};
constexpr std::array kEvidenceOptions{
    kBookOption, Option{"--from", "DATE", "visits from this day on; else of the last two years"}};
constexpr std::array kSheetOptions{
    kBookOption, Option{"--paper", "SIZE", "a4 (as it is) or letter"},
    Option{"--chart", "KIND",
           "of chart: before-2014, after-2014 (24 patches, by when "
           "the chart was made) or grey"},
    Option{"--window", "WxH",
           "of chart: mm of the field of patches, rows of six first; "
           "90x60 as it is"}};
constexpr std::array kReadOptions{
    Option{"--line", "X,Y,...", "points on the strand from scalp to tip, shares of the picture"},
    Option{"--line-after", "X,Y,...", "of the second photo, where it lies elsewhere"},
    Option{"--length", "CM", "of the strand along the line, stretched; else by the sheet's plane"},
    Option{"--width", "SHARE", "of the strip that is read, of the long side; 0.012 as it is"},
    Option{"--chart", "KIND", "the chart in the window, where it is not the sheet's"}};
constexpr std::array kExportOptions{kBookOption,
                                    Option{"--client", "ID", "what is about this client alone"}};
constexpr Option kPassphrase{
    "--passphrase", "FILE",
    "of --sealed: its first line; else the environment's HUEWRIGHT_PASSPHRASE"};
constexpr std::array kBackupOptions{
    kBookOption, Option{"--sealed", "FILE", "one encrypted file besides, to keep elsewhere"},
    kPassphrase};
constexpr std::array kRestoreOptions{
    kBookOption, Option{"--undo", "", "take the last restore back"},
    Option{"--sealed", "FILE", "from a file that backup --sealed wrote"}, kPassphrase};
constexpr std::array kDoctorOptions{kBookOption,
                                    Option{"--mend", "", "make the lists again from the facts"}};
constexpr std::array kServeOptions{
    kBookOption, Option{"--port", "N", "the first of its ports; else 8463"},
    Option{"--lan", "",
           "for tablets too: HTTPS on the next port, its certificate on the one after"},
    Option{"--let-in", "ROLE", "a code for one device: assistant, colourist or owner"}};
constexpr std::array kVisitOptions{
    kBookOption, kByOption,
    Option{"--course", "N", "of plan: the course that was chosen, from 1; 0: none"}};

}  // namespace

std::span<const Command> commands() {
  static constexpr std::array kAll{
      Command{"plan", "the ways to a colour on this head with this shelf, best first", "case",
              run_plan, kPlanOptions},
      Command{"bowl", "what a bowl holds, and what speaks against it", "bowl", run_bowl},
      Command{"colour", "a colour from light or pigment, differences, screens", "colour",
              run_colour},
      Command{"lift", "what bowls do to a strand, minute by minute", "lift", run_lift},
      Command{"deposit", "what a colour bowl leaves in a strand, minute by minute", "deposit",
              run_deposit},
      Command{"fade", "what washes and light leave of a colour", "fade", run_fade},
      Command{
          "client", "clients of the book", "", run_client, kClientOptions,
          "find TEXT | add FILE | show ID | record ID FILE | card FILE | import FILE | erase ID"},
      Command{"visit", "visits of the book", "", run_visit, kVisitOptions,
              "list CLIENT | day DATE | book FILE | show ID | record ID FILE | plan ID [CASE] | "
              "finish ID | replay ID | calendar [CLIENT]"},
      Command{
          "shelf", "products of the book, by the gram", "", run_shelf, kBookOptions,
          "list | add FILE | load SHELF | record ID FILE | ledger ID | count ID GRAMS | reorder"},
      Command{"sheet",
              "a visit on paper in the client's language or --language, or the sheet round a chart",
              "", run_sheet, kSheetOptions,
              "bowls|card|aftercare|quote|consent|before VISIT FILE.pdf | chart FILE.pdf"},
      Command{"read", "colour along a strand from a photo with a chart in it", "", run_read,
              kReadOptions, "PHOTO.jpg, or BEFORE.jpg AFTER.jpg"},
      Command{"evidence", "how past plans came out, by zone, level, reader and shade", "",
              run_evidence, kEvidenceOptions, "nothing"},
      Command{"export", "the book, or one client's part, as text for any program", "", run_export,
              kExportOptions, "FOLDER, a new one"},
      Command{"import", "an exported folder into the book", "", run_import, kBookOnly, "FOLDER"},
      Command{"backup", "a copy of the book, looked through", "", run_backup, kBackupOptions,
              "nothing"},
      Command{"restore", "a backup in the place of the book", "", run_restore, kRestoreOptions,
              "NAME; nothing: list the backups"},
      Command{"doctor", "whether anything is wrong with the book", "", run_doctor, kDoctorOptions,
              "nothing"},
      Command{"serve", "the book and the planner for a browser on this machine", "", run_serve,
              kServeOptions, "nothing"},
      Command{"schema", "the JSON Schema of an input file", "", run_schema},
  };
  return kAll;
}

}  // namespace hw::apps

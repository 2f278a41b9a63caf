// The list of every input; each schema file in schemas/ is printed from here.
#include <fmt/format.h>

#include <array>

#include "huewright/wire/bowl.h"
#include "huewright/wire/case_file.h"
#include "huewright/wire/checks_file.h"
#include "huewright/wire/colour.h"
#include "huewright/wire/deposit.h"
#include "huewright/wire/fade.h"
#include "huewright/wire/json.h"
#include "huewright/wire/lift.h"

namespace hw::wire {
namespace {

struct Entry {
  SchemaEntry entry;
  void (*fields)(Object&);
};

template <class Message>
void fields_of(Object& object) {
  Message message{};
  describe(object, message);
}

constexpr std::array kAll{
    Entry{{"bowl", "A bowl as it was weighed"}, fields_of<BowlRequest>},
    Entry{{"colour", "A question about a colour"}, fields_of<ColourRequest>},
    Entry{{"lift", "Bowls on a strand, minute by minute"}, fields_of<LiftRequest>},
    Entry{{"case", "A head to plan: person, zones, wish, shelf"}, fields_of<CaseFile>},
    Entry{{"checks", "Looks at the hair during a run, for plan --check"}, fields_of<ChecksFile>},
    Entry{{"deposit", "A colour bowl on a strand, minute by minute"}, fields_of<DepositRequest>},
    Entry{{"fade", "A finished colour and how it will be washed"}, fields_of<FadeRequest>},
    Entry{{"shelf", "Products at hand, as chemistry"}, fields_of<ShelfFile>},
};

}  // namespace

std::span<const SchemaEntry> schemas() {
  static const auto list = [] {
    std::array<SchemaEntry, kAll.size()> entries;
    for (std::size_t i = 0; i < entries.size(); ++i) entries[i] = kAll[i].entry;
    return entries;
  }();
  return list;
}

Result<std::string> schema_text(std::string_view name) {
  std::string names;
  for (const auto& [entry, fields] : kAll) {
    if (entry.name == name) return schema_of(entry.name, entry.title, fields);
    names += fmt::format("{}{}", names.empty() ? "" : ", ", entry.name);
  }
  return fail(ErrorCode::unknown_name, fmt::format("no input is called {}", name), "schema",
              "give one of " + names);
}

}  // namespace hw::wire

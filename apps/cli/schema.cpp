#include "command.h"
#include "huewright/book/record_file.h"
#include "huewright/wire/json.h"
#include "openapi.h"

namespace hw::apps {

Result<Said> run_schema(const Asked& asked) {
  if (asked.word == "openapi") return Said{server::openapi_text()};
  for (const wire::SchemaEntry& entry : book::schemas()) {
    if (entry.name == asked.word) return Said{book::schema_text(asked.word).value()};
  }
  auto text = wire::schema_text(asked.word);
  if (!text) return tl::unexpected(text.error());
  return Said{*std::move(text)};
}

}  // namespace hw::apps

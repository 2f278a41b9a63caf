#include "command.h"
#include "huewright/book/record_file.h"
#include "huewright/wire/json.h"
#include "openapi.h"

namespace hw::apps {

Result<Said> run_schema(const Asked& asked) {
  if (asked.word == "openapi") return Said{.out = server::openapi_text(), .exact = true};
  for (const wire::SchemaEntry& entry : book::schemas()) {
    if (entry.name == asked.word)
      return Said{.out = book::schema_text(asked.word).value(), .exact = true};
  }
  auto text = wire::schema_text(asked.word);
  if (!text) return tl::unexpected(text.error());
  return Said{.out = *std::move(text), .exact = true};
}

}  // namespace hw::apps

#include "command.h"
#include "huewright/wire/json.h"

namespace hw::apps {

Result<Said> run_schema(const Asked& asked) {
  auto text = wire::schema_text(asked.word);
  if (!text) return tl::unexpected(text.error());
  return Said{*std::move(text)};
}

}  // namespace hw::apps

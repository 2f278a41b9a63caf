#pragma once
// Plans that were just reckoned: a chart, tiles and a bowl of the same head need not plan it again.
#include <list>
#include <memory>
#include <mutex>
#include <string>

#include "huewright/wire/case_file.h"
#include "huewright/wire/plan_answer.h"

namespace hw::server {

/// A head with all that its plan holds.
struct Planned {
  wire::CaseFile file;  ///< with shelf and tests of the book in it
  wire::PlanAnswer answer;
};

/// The last few, by the text of what was asked. Of many threads.
class Plans {
 public:
  [[nodiscard]] std::shared_ptr<const Planned> find(const std::string& key);
  void keep(const std::string& key, std::shared_ptr<const Planned> planned);

 private:
  struct Entry {
    std::string key;
    std::shared_ptr<const Planned> planned;
  };
  std::mutex mutex_;
  std::list<Entry> entries_;  ///< newest first
};

}  // namespace hw::server

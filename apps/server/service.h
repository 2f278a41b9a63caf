#pragma once
// What the handlers share: the book, the threads, the clock, and the ear of every open page.
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <set>
#include <string>

#include "huewright/base/executor.h"
#include "huewright/book/folder.h"
#include "huewright/book/record_file.h"
#include "huewright/process/moment.h"
#include "plans.h"

namespace hw::server {

/// Told to every page that is open: something about this subject is new.
struct Change {
  std::string about;  ///< "client", "visit", "product", "salon", "drill"
  std::string id;
};

/// One open book that several threads ask. Handlers hold the lock for the book only, never while a
/// plan is reckoned.
class Service {
 public:
  Service(std::unique_ptr<book::Folder> folder, std::unique_ptr<Executor> threads);

  /// The book, for as long as the lock lives.
  struct Locked {
    std::unique_lock<std::mutex> lock;
    book::Folder& folder;
    [[nodiscard]] book::Store& store() const { return folder.store(); }
  };
  [[nodiscard]] Locked book() { return {std::unique_lock(mutex_), *folder_}; }
  [[nodiscard]] Executor& threads() { return *threads_; }
  [[nodiscard]] Plans& plans() { return plans_; }
  /// A photo's turn to be read, for as long as the lock lives: one at a time, so that a thread is
  /// left for everybody else. Not held where another photo has it.
  [[nodiscard]] std::unique_lock<std::mutex> photo_turn() {
    return std::unique_lock(photo_mutex_, std::try_to_lock);
  }

  /// The moment it is, on the wall clock's offset; tests set another clock.
  [[nodiscard]] process::Moment now() const { return clock_(); }
  void set_clock(std::function<process::Moment()> clock) { clock_ = std::move(clock); }
  /// Who writes and when, for facts that do not say.
  [[nodiscard]] book::Hand hand(const std::string& name) const;

  /// Tells every open page. Called without the lock held.
  void tell(const Change& change) const {
    if (listener_) listener_(change);
  }
  /// Zones of a visit whose hard stop somebody has heard. Not kept over a restart: better to sound
  /// once more than never.
  [[nodiscard]] std::set<std::string> seen(const std::string& visit);
  void mark_seen(const std::string& visit, const std::string& zone);
  void listen(std::function<void(const Change&)> listener) { listener_ = std::move(listener); }

 private:
  std::mutex mutex_;
  std::mutex photo_mutex_;
  std::unique_ptr<book::Folder> folder_;
  std::unique_ptr<Executor> threads_;
  Plans plans_;
  std::map<std::string, std::set<std::string>> seen_;
  std::function<process::Moment()> clock_;
  std::function<void(const Change&)> listener_;
};

}  // namespace hw::server

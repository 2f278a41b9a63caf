#pragma once
// Answers to writes, remembered by the key their sender gave them: a tablet that lost the answer on
// the way sends again and is told the same, also when the server was started anew in between.
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "huewright/process/moment.h"
#include "route.h"

namespace hw::server {

/// Most answers that are remembered [1], the most bytes of all, and how long [h]; house rules, no
/// source.
inline constexpr std::size_t kMostAnswers = 1000;
inline constexpr std::size_t kMostAnswerBytes = std::size_t{16} << 20U;
inline constexpr double kAnswerHours = 24;

/// Which request of whom.
struct Keyed {
  std::string device, key;
  std::string sha256;  ///< of address and body, so that a key used twice is noticed
};

/// Remembered answers; of any thread.
class Answers {
 public:
  using Done = std::function<void(Reply)>;
  /// Reads the file; lines that a crash left half are passed over. Error: io.
  [[nodiscard]] static Result<std::unique_ptr<Answers>> open(std::string file,
                                                             const process::Moment& now);

  /// True: nobody has done this yet, and the caller does it and calls finish(). False: done is
  /// called with the answer that was given, or will be when who does it now has finished, or with a
  /// refusal where the key was used for something else.
  bool begin(const Keyed& keyed, const Done& done);
  /// Remembers an answer that something came of (2xx) and gives it to everybody who waits. An
  /// answer that cannot be put on disk is given all the same; the error says so.
  Result<void> finish(const Keyed& keyed, const Reply& reply, const process::Moment& now);
  /// Drops every answer, in memory and on disk: they may speak of somebody who was erased.
  Result<void> forget();
  /// Drops answers older than kAnswerHours.
  Result<void> drop_old(const process::Moment& now);

  struct Remembered {
    Keyed keyed;
    std::string at;  ///< moment
    Reply reply;
  };

 private:
  using Name = std::pair<std::string, std::string>;  // device and key
  explicit Answers(std::string file) : file_(std::move(file)) {}
  void add(Remembered remembered);
  void drop_first();
  Result<void> append(std::string line);
  Result<void> write_anew();

  std::mutex mutex_;
  std::string file_;
  std::map<Name, Remembered> answers_;
  std::deque<Name> order_;  ///< oldest first
  std::size_t bytes_ = 0;   ///< of all bodies
  std::size_t lines_ = 0;   ///< of the file
  struct UnderWay {
    std::string sha256;
    std::vector<Done> waiting;
  };
  std::map<Name, UnderWay> under_way_;
};

}  // namespace hw::server

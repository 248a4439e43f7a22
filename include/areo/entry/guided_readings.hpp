// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Readings one after the other, one question at a time. What was accepted is in the notebook before
// the next question. Who asks, a terminal or a page, passes the answers on.
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "areo/batch/batch.hpp"
#include "areo/entry/reading_entry.hpp"

namespace areo::entry {

inline constexpr const char* all_the_same = "note it all the same? y for yes, Enter for no";
/// What is typed instead of Enter to note it all the same.
[[nodiscard]] bool says_yes(const std::string& answer);

class GuidedReadings {
 public:
  using Say = std::function<void(const std::string&)>;
  struct Start {
    std::string batch;
    TypedReading typed;  ///< what goes on from reading to reading
    bool yes = false;    ///< no second question about what is doubtful
    bool full = false;   ///< all digits
  };
  /// @param book  must outlive it
  /// @param say   takes each line that is said
  /// @throws Error{inconsistent} if the batch is closed
  GuidedReadings(notebook::Notebook& book, Start start, Say say);

  /// Says which batch it is, and what was read last.
  void greet();
  /// What to answer next.
  [[nodiscard]] std::string question() const;
  /// @param text  without spaces around it
  /// @throws ParseError, Error for what cannot be noted; then question() says how it goes on
  void answer(const std::string& text);
  [[nodiscard]] bool over() const { return over_; }
  /// Whether something doubtful was not noted.
  [[nodiscard]] bool left_doubtful() const { return left_doubtful_; }
  /// "3 readings noted, 1 reading taken back; areo batch show PT-1"
  [[nodiscard]] std::string summary() const;

 private:
  enum class Asks { reading, temperature, whether_to_note };

  void obey(const std::string& text);
  void take(const std::string& text);
  void take_temperature(const std::string& text);
  void show();
  void tell(batch::Batch& batch, const batch::Point& point, bool expected);
  [[nodiscard]] bool said_which(const std::string& answer) const;
  void note(const std::string& answer);
  void undo();

  notebook::Notebook* book_;
  Start start_;
  Say say_;
  TypedReading next_;  // what goes on from reading to reading
  Asks asks_ = Asks::reading;
  TypedReading typed_;  // the reading that is being noted
  NotedReading noted_;  // and what it was understood as
  bool doubtful_ = false;
  bool above_ = false;  // the original gravity: the answer has to be said
  std::vector<std::vector<notebook::Id>> accepted_;  // not yet taken back
  std::set<std::string> told_;                       // notes, each said once
  int count_ = 0, undone_ = 0;
  bool over_ = false, left_doubtful_ = false;
};

}  // namespace areo::entry

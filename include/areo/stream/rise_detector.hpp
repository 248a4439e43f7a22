// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// Rows of one ferment, one after the other in a file: its gravity only falls. A rise is flagged,
// never dropped, by the rule that the notebook has too: analysis::has_risen().
#include <deque>
#include <string>

#include "areo/measurement/result.hpp"
#include "areo/stream/stream.hpp"

namespace areo::stream {

class RiseDetector {
 public:
  /// Adds "jump up: bubbles or an addition?" to the notes if the gravity rose since the last row of
  /// the same ferment.
  /// @param row      its cells `batch` and `bottle` name the ferment, if the file has such columns
  /// @param original names the ferment if it has none; empty = unknown, and nothing is flagged
  /// @param result   of the row; its readings have identities of their own, as entry::corrected()
  ///                 and its like give them, so that two rows share no reading
  /// @param gravity  key of its gravity, compared with that of the same key only
  void flag(const RowView& row, const std::string& original, measurement::Result& result,
            const std::string& gravity);

 private:
  struct Last {
    std::string ferment;
    measurement::Result result;  // without what no difference needs
  };
  std::deque<Last> last_;  // the ferments read of most recently; bounded, as the file is not
};

}  // namespace areo::stream

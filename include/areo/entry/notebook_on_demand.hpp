// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A notebook that is opened when it is first asked for, and once, however many ask.
#include <functional>
#include <memory>
#include <optional>
#include <utility>

#include "areo/notebook/store.hpp"

namespace areo::entry {

class NotebookOnDemand {
 public:
  explicit NotebookOnDemand(std::function<notebook::Notebook()> open) : open_{std::move(open)} {}
  /// @throws what opening it throws
  [[nodiscard]] const notebook::Notebook& get() {
    if (!book_) book_.emplace(open_());
    return *book_;
  }

 private:
  std::function<notebook::Notebook()> open_;
  std::optional<notebook::Notebook> book_;
};
/// Of all who read in one command.
using SharedNotebook = std::shared_ptr<NotebookOnDemand>;

}  // namespace areo::entry

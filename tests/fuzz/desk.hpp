// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A folder with a notebook, and the program run there by its own entry: what it prints is caught,
// and nothing outside of the folder is touched.
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace areo::fuzz {

/// What became of a call of the program.
struct Ran {
  int status = 0;
  std::string out, err;
};

/// What lies in the folder.
enum class Notebook {
  none,
  empty,
  filled,  ///< with three instruments, two of them checked, a batch, its readings, an addition
};

class Desk {
 public:
  Desk();
  ~Desk();
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;

  /// Throws everything away.
  void clear(Notebook notebook);
  /// @param input  what it finds on its standard input
  Ran run(const std::vector<std::string>& words, std::string_view input = {});
  /// Of a file in the folder.
  [[nodiscard]] std::string path(const std::string& name) const { return (work() / name).string(); }
  [[nodiscard]] std::string notebook() const { return path("notebook.db"); }
  /// A notebook that is empty, away from the folder; the same file at each call.
  [[nodiscard]] std::string other_notebook() const;

 private:
  [[nodiscard]] std::filesystem::path work() const { return folder_ / "work"; }
  void keep(Notebook notebook, const std::vector<std::vector<std::string>>& calls);
  std::filesystem::path folder_;
};

}  // namespace areo::fuzz

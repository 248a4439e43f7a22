// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/unfinished_file.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "areo/core/error.hpp"
#include "areo/core/shell_word.hpp"
#include "areo/core/temporary_name.hpp"

namespace areo {
namespace {

namespace fs = std::filesystem;

class Unfinished : public testing::Test {
 protected:
  Unfinished() {
    std::string pattern = with_letters_to_fill((fs::temp_directory_path() / "areo-test-").string());
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error{"no temporary folder"};
    folder_ = pattern;
  }
  ~Unfinished() override { fs::remove_all(folder_); }
  [[nodiscard]] std::string path(const char* name) const { return (folder_ / name).string(); }
  [[nodiscard]] std::size_t files() const {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator{folder_}, fs::directory_iterator{}));
  }
  static void write(const std::string& file, const std::string& text) {
    std::ofstream{file} << text;
  }
  static std::string read(const std::string& file) {
    std::ifstream in{file};
    return {std::istreambuf_iterator<char>{in}, {}};
  }
  static unsigned rights(const std::string& file) {
    struct stat s {};
    return ::stat(file.c_str(), &s) == 0 ? s.st_mode & 0777U : 0;
  }

 private:
  fs::path folder_;
};

TEST_F(Unfinished, IsThereWholeOrNotAtAll) {
  {
    const UnfinishedFile file{path("page"), Present::replaced};
    write(file.path(), "half");
    EXPECT_FALSE(fs::exists(path("page")));
  }
  EXPECT_EQ(files(), 0U);
  UnfinishedFile file{path("page"), Present::replaced};
  write(file.path(), "whole");
  file.finish();
  EXPECT_EQ(read(path("page")), "whole");
  EXPECT_EQ(files(), 1U);
}

TEST_F(Unfinished, KeepsTheRightsOfWhatItReplaces) {
  write(path("page"), "old");
  ::chmod(path("page").c_str(), 0600);
  UnfinishedFile file{path("page"), Present::replaced};
  EXPECT_EQ(rights(file.path()), 0600U);
  file.finish();
  EXPECT_EQ(rights(path("page")), 0600U);
}

TEST_F(Unfinished, HasTheRightsOfAnotherIfAsked) {
  write(path("notebook"), "private");
  ::chmod(path("notebook").c_str(), 0640);
  UnfinishedFile file{path("copy"), Present::kept, path("notebook")};
  file.finish();
  EXPECT_EQ(rights(path("copy")), 0640U);
}

TEST_F(Unfinished, OfANewFileHasTheRightsThatTheProcessGives) {
  const mode_t before = ::umask(027);
  const UnfinishedFile file{path("page"), Present::replaced};
  ::umask(before);
  EXPECT_EQ(rights(file.path()), 0640U);
}

TEST_F(Unfinished, ReplacesTheFileBehindALink) {
  write(path("file"), "old");
  fs::create_symlink(path("file"), path("link"));
  UnfinishedFile file{path("link"), Present::replaced};
  write(file.path(), "new");
  file.finish();
  EXPECT_TRUE(fs::is_symlink(path("link")));
  EXPECT_EQ(read(path("file")), "new");
}

TEST_F(Unfinished, LeavesWhatIsThereIfItIsToBeKept) {
  write(path("page"), "mine");
  EXPECT_THROW((UnfinishedFile{path("page"), Present::kept}), Error);
  UnfinishedFile late{path("other"), Present::kept};
  write(path("other"), "faster");
  EXPECT_THROW(late.finish(), Error);
  EXPECT_EQ(read(path("other")), "faster");
  fs::create_symlink(path("nothing"), path("link"));
  EXPECT_THROW((UnfinishedFile{path("link"), Present::kept}), Error);
}

TEST_F(Unfinished, IsRefusedWhereNoFileCanBe) {
  fs::create_directory(path("folder"));
  for (const char* name : {"folder", "missing/page"})
    EXPECT_THROW((UnfinishedFile{path(name), Present::replaced}), Error) << name;
  EXPECT_THROW((UnfinishedFile{"/dev/null", Present::replaced}), Error);
  write(path("n.db"), "");
  for (const char* name : {"n.db-wal", "n.db-shm", "n.db-journal"})
    EXPECT_THROW((UnfinishedFile{path(name), Present::replaced}), Error) << name;
  EXPECT_EQ(files(), 2U);
}

TEST(ShellWord, IsQuotedWhereAShellWouldTakeItApart) {
  EXPECT_EQ(shell_word("PT-1"), "PT-1");
  EXPECT_EQ(shell_word("pêra_2.b"), "pêra_2.b");
  EXPECT_EQ(shell_word(""), "''");
  EXPECT_EQ(shell_word("x; touch y"), "'x; touch y'");
  EXPECT_EQ(shell_word("it's"), "'it'\\''s'");
  for (const char c : std::string{" $`\"\\!*?[]{}()<>|&;#~="})
    EXPECT_EQ(shell_word(std::string{c}), "'" + std::string{c} + "'");
  EXPECT_EQ(shell_word("two\nlines"), "$'two\\012lines'");
  EXPECT_EQ(shell_word("\x1b"
                       "0it's\\"),
            "$'\\0330it\\'s\\\\'");
}

}  // namespace
}  // namespace areo

// SPDX-License-Identifier: GPL-3.0-or-later
// The notebook as a file: made, refused, brought up to date, damaged, shared.
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include "areo/notebook/store.hpp"
#include "older.hpp"

namespace areo::notebook {
namespace {

using sqlite::Connection;
using File = TemporaryFolder;

TEST_F(File, MakesItsFoldersOnlyWhenAsked) {
  expect_contains(refusal([&] { const Notebook book{path("a/b/notebook.db")}; }),
                  "there is no such file yet");
  EXPECT_TRUE(std::filesystem::is_empty(folder()));
  const Notebook book{path("a/b/notebook.db"), Open::create};
  EXPECT_TRUE(book.instruments().empty());
}

TEST_F(File, LeavesOtherFilesAlone) {
  const std::string text(5000, 'x');
  const std::string head = "SQLite format 3";
  for (const std::string& content :
       {text, std::string{"short"}, head + std::string(5000, '\xff')}) {
    std::ofstream{path("diary.txt"), std::ios::binary} << content;
    for (const Open how : {Open::existing, Open::create}) {
      EXPECT_NE(refusal([&] { const Notebook book{path("diary.txt"), how}; }), "accepted");
      EXPECT_EQ(bytes_of(path("diary.txt")), content);
    }
  }
}

TEST_F(File, LeavesOtherDatabasesAlone) {
  raw(path()).run("CREATE TABLE recipe (x); INSERT INTO recipe VALUES (1)");
  const std::string before = bytes_of(path());
  for (const Open how : {Open::existing, Open::create})
    expect_contains(refusal([&] {
                      const Notebook book{path(), how};
                    }),
                    "is a database, but not a notebook");
  EXPECT_EQ(bytes_of(path()), before);
}

TEST_F(File, AnOlderVersionIsBroughtUpToDateAfterACopy) {
  make_older(path(), 1);
  Notebook book{path()};
  const Id stem = book.instrument("stem-1").id;
  ASSERT_EQ(book.checks(stem).size(), 60u);
  EXPECT_EQ(book.checks(stem)[0].note, "check 1");
  EXPECT_FALSE(book.checks(stem)[0].thermometer.has_value());
  EXPECT_EQ(book.calibrations(stem).size(), 1u);
  EXPECT_EQ(raw(path()).number("PRAGMA user_version"), schema_version);
  EXPECT_NE(refusal([&] { raw(path()).run("DELETE FROM instrument"); }), "accepted");
  const Connection copy = raw(path("notebook.db.version-1"));
  EXPECT_EQ(copy.number("PRAGMA user_version"), 1);
  EXPECT_EQ(copy.number("SELECT count(*) FROM check_reading"), 60);
  EXPECT_EQ(names_in(folder()),
            (std::set<std::string>{"notebook.db", "notebook.db-shm", "notebook.db-wal",
                                   "notebook.db.version-1"}));
}

TEST_F(File, ANewNotebookNeedsNoCopy) {
  const Notebook book{path(), Open::create};
  for (const auto& entry : std::filesystem::directory_iterator{folder()})
    EXPECT_EQ(entry.path().string().find("version"), std::string::npos) << entry.path();
}

TEST_F(File, ACopyThatCannotBeWrittenChangesNothing) {
  // A name that leaves no room for that of a copy.
  const std::string file = path(std::string(240, 'n'));
  make_older(file, 1);
  expect_contains(refusal([&] { const Notebook book{file}; }), "its copy cannot be written");
  EXPECT_EQ(raw(file).number("PRAGMA user_version"), 1);
  EXPECT_EQ(names_in(folder()), (std::set<std::string>{std::string(240, 'n')}));
}

// An older copy may be of another time: it stays, and another one is made.
TEST_F(File, ACopyThatIsThereStays) {
  make_older(path(), 1);
  std::ofstream{path("notebook.db.version-1")} << "mine";
  const Notebook book{path()};
  EXPECT_EQ(bytes_of(path("notebook.db.version-1")), "mine");
  EXPECT_EQ(raw(path("notebook.db.version-1-2")).number("PRAGMA user_version"), 1);
}

TEST_F(File, LeavesANewerNotebookAlone) {
  Notebook{path(), Open::create}.add(hydrometer("stem-1"));
  raw(path()).run("PRAGMA user_version = 99; PRAGMA wal_checkpoint(TRUNCATE)");
  const std::string before = bytes_of(path());
  for (const Open how : {Open::existing, Open::create})
    expect_contains(refusal([&] {
                      const Notebook book{path(), how};
                    }),
                    "was written by a newer areo");
  EXPECT_EQ(bytes_of(path()), before);
}

TEST_F(File, ADamagedNotebookIsReportedAndNotRepaired) {
  {
    Notebook book{path(), Open::create};
    for (int i = 0; i < 200; ++i) book.add(hydrometer("stem-" + std::to_string(i)));
  }
  std::string content = bytes_of(path());
  ASSERT_GT(content.size(), 8192u);
  for (std::size_t i = 4096; i < content.size(); ++i) content[i] = '\x5a';
  std::ofstream{path(), std::ios::binary} << content;
  expect_contains(refusal([&] { (void)Notebook{path()}.instruments(); }), path());
  EXPECT_EQ(bytes_of(path()), content);
}

// Perhaps it was one, and somebody emptied it.
TEST_F(File, AnEmptyFileIsNoNotebook) {
  std::ofstream{path()};
  for (const Open how : {Open::existing, Open::create, Open::read})
    expect_contains(refusal([&] { const Notebook book{path(), how}; }), "is empty");
  EXPECT_EQ(bytes_of(path()), "");
}

TEST_F(File, OnlyAnOrdinaryFileIsANotebook) {
  std::filesystem::create_symlink(path("loop"), path("loop"));
  for (const std::string& name : {std::string{":memory:"}, std::string{"file:x?mode=memory"},
                                  std::string{}, path("loop"), path(""), std::string{"/dev/zero"}})
    for (const Open how : {Open::existing, Open::create, Open::read})
      EXPECT_NE(refusal([&] { const Notebook book{name, how}; }), "accepted") << name;
}

TEST_F(File, RefusesAVersionThatNobodyWrote) {
  Notebook{path(), Open::create}.add(hydrometer("stem-1"));
  raw(path()).run("PRAGMA user_version = -1; PRAGMA wal_checkpoint(TRUNCATE)");
  expect_contains(refusal([&] { const Notebook book{path()}; }), "which no areo ever wrote");
  EXPECT_EQ(raw(path()).number("PRAGMA user_version"), -1);
}

// Root may write everywhere, so the test is somebody else for a while.
class SomebodyElse {
 public:
  SomebodyElse() : was_root_{geteuid() == 0} {
    if (was_root_ && seteuid(65534) != 0) throw std::runtime_error{"cannot stop being root"};
  }
  ~SomebodyElse() {
    if (was_root_ && seteuid(0) != 0) std::abort();
  }
  SomebodyElse(const SomebodyElse&) = delete;
  SomebodyElse& operator=(const SomebodyElse&) = delete;

 private:
  bool was_root_;
};

TEST_F(File, SaysWhenTheFileCannotBeWritten) {
  Notebook{path(), Open::create}.add(hydrometer("stem-1"));
  const std::string before = bytes_of(path());
  chmod(folder().c_str(), 0555);
  chmod(path().c_str(), 0444);
  {
    const SomebodyElse nobody;
    const std::string why = refusal([&] { Notebook{path()}.add(hydrometer("stem-2")); });
    expect_contains(why, path());
    expect_contains(why, "| check that file and folder exist and may be written");
    expect_contains(refusal([&] { const Notebook book{path("new.db"), Open::create}; }), "new.db");
    expect_contains(refusal([&] {
                      const Notebook book{path("a/new.db"), Open::create};
                    }),
                    "its folder cannot be made");
  }
  chmod(folder().c_str(), 0755);
  EXPECT_EQ(bytes_of(path()), before);
}

TEST_F(File, CanBeReadWhereNothingCanBeWritten) {
  Notebook{path("a #1?&%41.db"), Open::create}.add(hydrometer("stem-1"));
  make_older(path("old.db"), 1);
  std::ofstream{path("empty.db")};
  for (const char* name : {"a #1?&%41.db", "old.db", "empty.db"}) chmod(path(name).c_str(), 0444);
  const std::string before = bytes_of(path("a #1?&%41.db")) + bytes_of(path("old.db"));
  chmod(folder().c_str(), 0555);
  {
    const SomebodyElse nobody;
    Notebook book{path("a #1?&%41.db"), Open::read};
    EXPECT_EQ(book.instruments().size(), 1u);
    expect_contains(refusal([&] { book.add(hydrometer("stem-2")); }),
                    "| check that file and folder exist and may be written");
    expect_contains(refusal([&] {
                      const Notebook old{path("old.db"), Open::read};
                    }),
                    "was written by an older areo");
    expect_contains(refusal([&] {
                      const Notebook empty{path("empty.db"), Open::read};
                    }),
                    "is empty");
    expect_contains(refusal([&] {
                      const Notebook none{path("none.db"), Open::read};
                    }),
                    "there is no such file");
  }
  chmod(folder().c_str(), 0755);
  EXPECT_EQ(bytes_of(path("a #1?&%41.db")) + bytes_of(path("old.db")), before);
}

TEST_F(File, AFolderIsNoNotebook) {
  EXPECT_NE(refusal([&] { const Notebook book{folder().string()}; }), "accepted");
}

TEST_F(File, TwoAtATimeBothGetTheirTurn) {
  Notebook one{path(), Open::create};
  Notebook two{path()};
  one.add(hydrometer("stem-1"));
  two.add(hydrometer("stem-2"));
  one.add(hydrometer("stem-3"));
  EXPECT_EQ(two.instruments().size(), 3u);
}

class DefaultPath : public testing::Test {
 protected:
  void SetUp() override {
    for (const char* name : names) {
      const char* v = std::getenv(name);
      before_.emplace_back(v != nullptr ? std::optional<std::string>{v} : std::nullopt);
      unsetenv(name);
    }
  }
  void TearDown() override {
    for (std::size_t i = 0; i < before_.size(); ++i)
      before_[i] ? setenv(names[i], before_[i]->c_str(), 1) : unsetenv(names[i]);
  }
  static constexpr const char* names[] = {"AREO_NOTEBOOK", "XDG_DATA_HOME", "HOME"};

 private:
  std::vector<std::optional<std::string>> before_;
};

TEST_F(DefaultPath, IsTheFirstThatIsSet) {
  EXPECT_THROW((void)default_path(), Error);
  setenv("HOME", "/h", 1);
  EXPECT_EQ(default_path(), "/h/.local/share/areo/notebook.db");
  setenv("XDG_DATA_HOME", "/d", 1);
  EXPECT_EQ(default_path(), "/d/areo/notebook.db");
  setenv("AREO_NOTEBOOK", "/n.db", 1);
  EXPECT_EQ(default_path(), "/n.db");
  setenv("AREO_NOTEBOOK", "", 1);  // empty is not set
  EXPECT_EQ(default_path(), "/d/areo/notebook.db");
}

}  // namespace
}  // namespace areo::notebook

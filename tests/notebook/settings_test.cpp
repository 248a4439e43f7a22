// SPDX-License-Identifier: GPL-3.0-or-later
// What somebody is used to: the last row of a setting holds, and no row is lost.
#include <gtest/gtest.h>

#include "areo/core/error.hpp"
#include "areo/notebook/store.hpp"
#include "older.hpp"
#include "temporary.hpp"

namespace areo::notebook {
namespace {

using SettingsTest = TemporaryFolder;

const Moment at = moment_from_text("2026-03-05T10:00Z");

TEST_F(SettingsTest, TheLastOneHoldsAndAllStay) {
  {
    Notebook book{path(), Open::create};
    EXPECT_EQ(book.settings(), Settings{});
    book.set("temperature", "F", at);
    book.set("volume", "US gal", at);
    book.set("temperature", "C", at);
    book.set("volume", "", at);
  }
  const Notebook book{path()};
  EXPECT_EQ(book.settings().temperature, "C");
  EXPECT_EQ(book.settings().volume, "");
  ASSERT_EQ(book.setting_changes().size(), 4U);
  EXPECT_EQ(book.setting_changes()[0].value, "F");
  EXPECT_EQ(book.setting_changes()[0].at, at);
}

TEST_F(SettingsTest, EveryWordThatThereIsCanBeKept) {
  Notebook book{path(), Open::create};
  for (const SettingKind& kind : setting_kinds())
    for (const std::string_view word : kind.words) {
      book.set(kind.name, word, at);
      EXPECT_EQ(book.settings().*kind.place, word);
    }
}

TEST_F(SettingsTest, NoOtherWordIs) {
  Notebook book{path(), Open::create};
  EXPECT_THROW(book.set("temperature", "K", at), Error);
  EXPECT_THROW(book.set("colour", "blue", at), Error);
  EXPECT_TRUE(book.setting_changes().empty());
  const sqlite::Connection db = raw(path());
  EXPECT_THROW(db.run("INSERT INTO setting (at, at_s, name, value) VALUES "
                      "('2026-03-05T10:00:00+00:00', 1772704800, 'temperature', 'K')"),
               Error);
}

TEST_F(SettingsTest, AnOlderNotebookHasNone) {
  make_older(path(), 5);
  const Notebook book{path()};
  EXPECT_EQ(book.settings(), Settings{});
  EXPECT_FALSE(book.instruments().empty());
}

}  // namespace
}  // namespace areo::notebook

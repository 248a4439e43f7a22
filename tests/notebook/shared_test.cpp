// SPDX-License-Identifier: GPL-3.0-or-later
// One notebook that several threads share: each waits for the other, and nobody is refused.
#include <gtest/gtest.h>

#include <array>
#include <atomic>
#include <exception>
#include <functional>
#include <string>
#include <thread>
#include <vector>

#include "areo/core/error.hpp"
#include "batches.hpp"

namespace areo::notebook {
namespace {

constexpr std::size_t samples = 40, readings_of_one = 2;

class Shared : public Batches {
 protected:
  // All at once; what one throws is its failure.
  static void run(const std::vector<std::function<void()>>& acts) {
    std::vector<std::string> failures(acts.size());
    std::vector<std::thread> threads;
    for (std::size_t i = 0; i < acts.size(); ++i)
      threads.emplace_back([&act = acts[i], &failure = failures[i]] {
        try {
          act();
        } catch (const std::exception& e) {
          failure = e.what();
        }
      });
    for (std::thread& t : threads) t.join();
    for (const std::string& failure : failures) EXPECT_EQ(failure, "");
  }
  void write_samples() {
    for (std::size_t i = 0; i < samples; ++i) {
      std::array<ReadingRecord, readings_of_one> two;
      two.fill(reading(pt1_, stem_, 1.040, "2026-03-03T18:00Z"));
      const std::vector<Id> ids = book_.add(two);
      // Its own, and not those of the thread beside it.
      if (ids.size() != readings_of_one || ids[1] != ids[0] + 1)
        throw Error{Errc::store, "ids of two samples"};
    }
  }
};

TEST_F(Shared, TwoWritersNoteEverything) {
  run({[this] { write_samples(); }, [this] { write_samples(); }});
  EXPECT_EQ(book_.readings(pt1_).size(), 2 * samples * readings_of_one);
}

TEST_F(Shared, AReaderSeesWholeSamples) {
  std::atomic<bool> written{false};
  run({[&] {
         write_samples();
         written = true;
       },
       [&] {
         while (!written)
           if (book_.readings(pt1_).size() % readings_of_one != 0)
             throw Error{Errc::store, "half a sample"};
       }});
  EXPECT_EQ(book_.readings(pt1_).size(), samples * readings_of_one);
}

TEST_F(Shared, WhatOneTakesBackTheOtherKeeps) {
  const auto in_vain = [this] {
    for (std::size_t i = 0; i < samples; ++i)
      book_.at_once([this] {
        (void)note(1.030, "2026-03-04T18:00Z");
        return false;
      });
  };
  run({in_vain, [this] { write_samples(); }});
  EXPECT_EQ(book_.readings(pt1_).size(), samples * readings_of_one);
}

}  // namespace
}  // namespace areo::notebook

// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/core/identity.hpp"

#include <atomic>
#include <map>
#include <mutex>

namespace areo {
namespace {

constexpr std::uint64_t no_list = 0;  // things that nobody listed

std::uint64_t next_list() {
  static std::atomic<std::uint64_t> last{no_list};
  return ++last;
}

std::uint64_t list_with(const std::string& name) {
  static std::mutex one_at_a_time;
  static std::map<std::string, std::uint64_t> known;
  const std::scoped_lock lock{one_at_a_time};
  const auto found = known.find(name);
  return found != known.end() ? found->second : known.emplace(name, next_list()).first->second;
}

std::int64_t next_thing() {
  static std::atomic<std::int64_t> last{0};
  return ++last;
}

}  // namespace

Identity::Identity() : list_{no_list}, number_{next_thing()} {}

IdentityRegister::IdentityRegister() : list_{next_list()} {}

IdentityRegister::IdentityRegister(const std::string& name) : list_{list_with(name)} {}

}  // namespace areo

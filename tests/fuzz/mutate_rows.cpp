// SPDX-License-Identifier: GPL-3.0-or-later
// Changes for exports and lists of readings: a line goes, comes twice or moves, a value becomes
// another one. Bytes changed at random seldom stay JSON.
#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <nlohmann/json.hpp>
#include <random>
#include <sstream>
#include <string>
#include <vector>

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t most);

namespace {

using Json = nlohmann::ordered_json;
using Random = std::minstd_rand;
using Lines = std::vector<std::string>;

std::size_t any(Random& random, std::size_t count) { return random() % count; }

std::string mutated(const std::string& text) {
  std::string out = text;
  out.resize(text.size() + 16);
  out.resize(
      LLVMFuzzerMutate(reinterpret_cast<std::uint8_t*>(out.data()), text.size(), out.size()));
  return out;
}

const std::array odd{Json(nullptr),    Json(0),
                     Json(-1),         Json(1),
                     Json(2),          Json(0.0),
                     Json(-0.5),       Json(1e-300),
                     Json(1e300),      Json(INT64_MAX),
                     Json(INT64_MIN),  Json(""),
                     Json("x"),        Json("yeast"),
                     Json("original"), Json("2026-03-06T18:00:00+00:00"),
                     Json("1.016"),    Json{{"hex", "ff"}}};

// Beyond the largest one comes the smallest.
std::int64_t next_to(std::int64_t number, Random& random) {
  const auto unsigned_number = static_cast<std::uint64_t>(number);
  return static_cast<std::int64_t>(any(random, 2) == 0 ? unsigned_number + 1 : unsigned_number - 1);
}

void change_value(Json& value, const Json& other, Random& random) {
  switch (any(random, 4)) {
    case 0: value = odd[any(random, odd.size())]; break;
    case 1: value = other; break;
    default:
      if (value.is_string())
        value = mutated(value.get<std::string>());
      else if (value.is_number_integer())
        value = next_to(value.get<std::int64_t>(), random);
      else if (value.is_number_float())
        value = value.get<double>() * (any(random, 2) == 0 ? -1 : 10);
  }
}

void change_line(std::string& line, Random& random) {
  Json object = Json::parse(line, nullptr, false);
  if (!object.is_object()) return;
  Json& row = object.contains("row") ? object["row"] : object;
  if (!row.is_object() || row.empty()) return;
  const auto member = [&] {
    return std::next(row.begin(), static_cast<long>(any(random, row.size())));
  };
  change_value(*member(), *member(), random);
  line = object.dump(-1, ' ', false, Json::error_handler_t::replace);
}

void change(Lines& lines, Random& random) {
  const std::size_t i = any(random, lines.size());
  switch (any(random, 8)) {
    case 0: lines.erase(lines.begin() + static_cast<long>(i)); break;
    case 1:
      lines.insert(lines.begin() + static_cast<long>(i), lines[any(random, lines.size())]);
      break;
    case 2: std::swap(lines[i], lines[any(random, lines.size())]); break;
    default: change_line(lines[i], random);
  }
}

}  // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t most, unsigned seed) {
  Random random{seed};
  if (size == 0 || any(random, 4) == 0) return LLVMFuzzerMutate(data, size, most);
  Lines lines;
  std::istringstream in{std::string{reinterpret_cast<const char*>(data), size}};
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  change(lines, random);
  std::string out;
  for (const std::string& line : lines) out += line + "\n";
  if (out.empty() || out.size() > most) return LLVMFuzzerMutate(data, size, most);
  std::memcpy(data, out.data(), out.size());
  return out.size();
}

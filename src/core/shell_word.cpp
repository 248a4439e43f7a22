#include "areo/core/shell_word.hpp"

#include <algorithm>

namespace areo {
namespace {

bool is_plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
         std::string_view{"_-./,:+@%"}.find(c) != std::string_view::npos ||
         static_cast<unsigned char>(c) >= 0x80;
}

}  // namespace

std::string shell_word(std::string_view text) {
  if (!text.empty() && std::all_of(text.begin(), text.end(), is_plain)) return std::string{text};
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string{"'\\''"} : std::string{c};
  return out + "'";
}

}  // namespace areo

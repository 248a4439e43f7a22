// SPDX-License-Identifier: GPL-3.0-or-later
#include "areo/stream/file_kind.hpp"

#include <fmt/format.h>

#include <string_view>

#include "areo/core/error.hpp"
#include "first_member.hpp"

namespace areo::stream {

bool begins_with_member(std::string_view text, std::string_view name) {
  std::string begin{'{', '"'};
  begin.append(name).append({'"', ':'});
  std::string squeezed;
  for (const char c : text) {
    if (squeezed.size() == begin.size()) break;
    if (c != ' ' && c != '\t') squeezed += c;
  }
  return squeezed == begin;
}

FileKind kind_of_file(std::istream& in, const std::string& name) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";  // of byte order, as some programs write it
  std::string start(mark.size(), '\0');
  in.read(start.data(), static_cast<std::streamsize>(start.size()));
  const std::streamoff begins = start == mark ? static_cast<std::streamoff>(mark.size()) : 0;
  in.clear();
  in.seekg(begins);
  char first = 0;
  if (!(in >> first))
    throw Error{Errc::file, fmt::format("{} is empty", name), "is it the right file?"};
  constexpr std::streamsize enough = 64;  // to see what an object begins with
  std::string begin(enough, '\0');
  in.read(begin.data(), enough);
  begin = first + begin;
  in.clear();
  in.seekg(begins);
  in >> std::ws;
  if (begins_with_member(begin, "areo") || begins_with_member(begin, "table"))
    return FileKind::exported;
  if (first == '[') return FileKind::list;
  if (first == '{') return FileKind::objects;
  in.seekg(0);
  return FileKind::table;
}

}  // namespace areo::stream

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// A document as content, and its three faces: a page, plain text, Markdown.
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "areo/document/page.hpp"

namespace areo::document {

struct Paragraph {
  std::string text;
};
struct Bullets {
  std::vector<std::string> items;
};
/// The first row names the columns, with their units.
struct CaptionedTable {
  std::string caption;
  std::vector<std::vector<std::string>> rows;
};
/// For pages only; what it shows has to stand in a table too.
struct Picture {
  std::string svg, caption;
  bool half = false;  ///< of the width, where there is room: two of them stand side by side
};
/// Within a section.
struct Subheading {
  std::string text;
};
/// Set apart.
struct Caution {
  std::string text;
};
using Block =
    std::variant<Paragraph, Bullets, CaptionedTable, Picture, Subheading, Caution, Headline>;

struct Section {
  std::string heading;
  std::vector<Block> blocks;
};

/// Every text is taken as it is; the faces escape it.
struct Document {
  std::string title;
  std::string number{};          ///< stands on every sheet
  std::string caution{};         ///< at the top and at the bottom; empty: none
  std::vector<Block> opening{};  ///< before the first section
  std::vector<Section> sections{};
  std::vector<std::string> footer{};
  std::string end{};  ///< the last line; empty: none

  void section(std::string heading) { sections.push_back({std::move(heading), {}}); }
  /// To the last section, or before the first one.
  void add(Block block) {
    (sections.empty() ? opening : sections.back().blocks).push_back(std::move(block));
  }
};

/// @param paper  as PageSetup
[[nodiscard]] std::string page_of(const Document& document,
                                  const std::optional<Paper>& paper = std::nullopt);
/// For a terminal: lines of at most so many columns, as far as words can be broken.
[[nodiscard]] std::vector<std::string> text_of(const Document& document, std::size_t columns);
/// Markdown with tables; whatever would be markup in a text is escaped.
[[nodiscard]] std::vector<std::string> markdown_of(const Document& document);

}  // namespace areo::document

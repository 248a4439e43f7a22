#pragma once
// A document as content, and its three faces: a page, plain text, Markdown.
#include <string>
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
};
using Block = std::variant<Paragraph, Bullets, CaptionedTable, Picture>;

struct Section {
  std::string heading;
  std::vector<Block> blocks;
};

/// Every text is taken as it is; the faces escape it.
struct Document {
  std::string title;
  std::string number;   ///< stands on every sheet
  std::string caution;  ///< at the top and at the bottom
  std::string headline;
  std::vector<std::string> below_headline;
  std::vector<Section> sections;
  std::vector<std::string> footer;
  std::string end;  ///< the last line
};

[[nodiscard]] std::string page_of(const Document& document, Paper paper);
/// For a terminal: lines of at most so many columns, as far as words can be broken.
[[nodiscard]] std::vector<std::string> text_of(const Document& document, std::size_t columns);
/// Markdown with tables; whatever would be markup in a text is escaped.
[[nodiscard]] std::vector<std::string> markdown_of(const Document& document);

}  // namespace areo::document

// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The writers behind sheet_writer(), a file each.
#include "areo/document/sheet.hpp"

namespace areo::document {

[[nodiscard]] std::unique_ptr<SheetWriter> text_sheet(std::ostream& out, const SheetHead& head);
[[nodiscard]] std::unique_ptr<SheetWriter> csv_sheet(std::ostream& out, const SheetHead& head);
[[nodiscard]] std::unique_ptr<SheetWriter> markdown_sheet(std::ostream& out, const SheetHead& head);
[[nodiscard]] std::unique_ptr<SheetWriter> html_sheet(std::ostream& out, const SheetHead& head);

/// "density at 20 °C, kg/m³"
[[nodiscard]] std::string heading(const SheetColumn& c);

}  // namespace areo::document

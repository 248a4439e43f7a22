// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The notebook that the user named.
#include <string>

#include "areo/entry/notebook_on_demand.hpp"
#include "output.hpp"

namespace areo::cli {

/// Path of the notebook that the user named, or the default.
[[nodiscard]] std::string notebook_path(const Session& session);
/// That notebook. A row that cannot be read is named on standard error and skipped.
/// @throws as notebook::Notebook
[[nodiscard]] notebook::Notebook open_notebook(const Session& session,
                                               notebook::Open how = notebook::Open::existing);
/// Opens it to be read, once it is needed. The session must outlive it.
[[nodiscard]] entry::SharedNotebook notebook_to_read(const Session& session);

}  // namespace areo::cli

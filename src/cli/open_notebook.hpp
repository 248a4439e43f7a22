#pragma once
// The notebook that the user named.
#include <functional>
#include <string>

#include "areo/notebook/store.hpp"
#include "output.hpp"

namespace areo::cli {

/// Path of the notebook that the user named, or the default.
[[nodiscard]] std::string notebook_path(const Session& session);
/// That notebook. A row that cannot be read is named on standard error and skipped.
/// @throws as notebook::Notebook
[[nodiscard]] notebook::Notebook open_notebook(const Session& session,
                                               notebook::Open how = notebook::Open::existing);
/// Opens it to be read, once it is needed.
[[nodiscard]] std::function<notebook::Notebook()> notebook_opener(const Session& session);

}  // namespace areo::cli

#include "areo/report/json.hpp"

#include <nlohmann/json.hpp>

namespace areo::report {
namespace {

using Json = nlohmann::ordered_json;

std::string dump(const Json& j) { return j.dump(-1, ' ', false, Json::error_handler_t::replace); }

}  // namespace

std::string json_string(std::string_view text) { return dump(Json(std::string{text})); }

std::string json_line(const measurement::Result& result,
                      const std::vector<std::pair<std::string, std::string>>& head) {
  Json j = Json::object();
  for (const auto& [key, value] : head) j[key] = Json::parse(value);
  for (const measurement::Quantity& q : result.quantities)
    j[q.key] = {{"value", q.value.estimate},
                {"standard_uncertainty", q.value.u},
                {"expanded_uncertainty", q.value.expanded()},
                {"unit", q.unit}};
  j["notes"] = result.notes;
  return dump(j);
}

}  // namespace areo::report

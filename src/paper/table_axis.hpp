// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
// The sides of a table from what was typed.
#include <string>

#include "areo/paper/grid.hpp"
#include "areo/text/parse.hpp"

namespace areo::paper {

/// Where the models of every table come from, for its foot.
inline constexpr const char* of_sugar =
    "sugar solutions: ICUMSA SPS-4 [sps4], on the water of Tanaka and others [tanaka2001]";
inline constexpr const char* of_drinks =
    "alcohol: OIML R 22 [oimlr22], by Tabarié's relation [oiv-as2-03b]";
inline constexpr const char* of_glass = "glass: ISO 1768 [iso1768]";
inline constexpr const char* of_balance = "Balling's balance [balling]";
inline constexpr const char* of_index =
    "refractive index: ICUMSA 1974 [icumsa1974], on the water of IAPWS R9-97 [iapws-r9-97]";

/// Marks of one scale.
struct MarkAxis {
  physics::Scale scale;
  Axis axis;
};
/// @param step   a usual division of the scale if empty
/// @param own    of a named instrument: numbers without a unit are on it
/// @param gravity_step  instead of the usual division of a specific gravity; empty: none
/// @throws ParseError, Error{inconsistent} for ends on two scales, and as even_axis()
[[nodiscard]] MarkAxis mark_axis(const std::string& from, const std::string& to,
                                 const std::string& step,
                                 const std::optional<physics::Scale>& own = std::nullopt,
                                 const std::string& gravity_step = "");
/// "1.040,1.050": in any order, each once.
[[nodiscard]] MarkAxis listed_marks(const std::string& marks,
                                    const std::optional<physics::Scale>& own = std::nullopt);

/// "10,12": in any order, each once; without a unit, or in Brix.
/// @param named  the axis without its entries
/// @param what   one of them is: "an original reading"
[[nodiscard]] Axis listed_brix(const std::string& list, Axis named, const char* what);
/// @throws ParseError for another unit
[[nodiscard]] double brix_from_text(const std::string& text, const char* what);

/// Temperatures in the unit that they were typed in, °C or °F, with the same points in °C.
struct TemperatureAxis {
  Axis axis;
  bool fahrenheit = false;
  [[nodiscard]] Temperature at(double entry) const;
};
/// Of a liquid whose density counts, or any.
enum class Heat { of_liquid, any };
[[nodiscard]] TemperatureAxis temperature_axis(const std::string& from, const std::string& to,
                                               const std::string& step,
                                               Heat heat = Heat::of_liquid);

/// Ends and step, as typed.
struct TypedTemperatures {
  std::string coldest, warmest, step;
};
/// What nobody typed is usual: in the unit of what was typed, else in that of `scale`'s reference.
[[nodiscard]] TemperatureAxis temperature_axis(const TypedTemperatures& stated,
                                               const TypedTemperatures& usual_c,
                                               const TypedTemperatures& usual_f,
                                               const physics::Scale& scale);

/// "5", "5%vol"
/// @throws ParseError for another unit
[[nodiscard]] text::TypedNumber strength_number(const std::string& text);

/// More decimals of a scale than these serve nobody, however well the formulas agree.
[[nodiscard]] int most_decimals(const physics::Scale& scale);

}  // namespace areo::paper

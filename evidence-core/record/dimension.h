#pragma once

#include "evidence-core/record/id.h"
#include "evidence-core/record/value.h"

#include <optional>
#include <string>

namespace evidence::record {

enum class DimensionQuantity { Length, Diameter, Radius, Angle, Area, Volume, Mass, Count, Ratio };

template <>
struct Names<DimensionQuantity> {
    static constexpr std::array<NameList<DimensionQuantity>, 9> all{
        {{"length", DimensionQuantity::Length},
         {"diameter", DimensionQuantity::Diameter},
         {"radius", DimensionQuantity::Radius},
         {"angle", DimensionQuantity::Angle},
         {"area", DimensionQuantity::Area},
         {"volume", DimensionQuantity::Volume},
         {"mass", DimensionQuantity::Mass},
         {"count", DimensionQuantity::Count},
         {"ratio", DimensionQuantity::Ratio}}};
};

/// A number of the original that belongs to a component (a path such as `Body/Roof/Hoop 3`).
struct Dimension {
    DimensionId id;
    std::optional<std::string> code;
    std::string name;
    std::optional<std::string> component;
    DimensionQuantity quantity = DimensionQuantity::Length;
    std::optional<std::string> unit;  ///< the canonical one where absent
    std::optional<double> tolerance;  ///< ±, in the dimension's unit
    std::optional<bool> critical;     ///< safety-critical; false where absent
    std::optional<StateId> state;
    std::optional<std::string> setAside;
    std::optional<std::string> note;

    static constexpr auto fields() {
        return std::tuple{field("id", &Dimension::id),
                          field("code", &Dimension::code),
                          field("name", &Dimension::name),
                          field("component", &Dimension::component),
                          field("quantity", &Dimension::quantity),
                          field("unit", &Dimension::unit),
                          field("tolerance", &Dimension::tolerance),
                          field("critical", &Dimension::critical),
                          field("state", &Dimension::state),
                          field("set_aside", &Dimension::setAside),
                          field("note", &Dimension::note)};
    }
    friend bool operator==(const Dimension&, const Dimension&) = default;
};

enum class ParticularKind { Presence, Count, Material, Fastener, Finish, Process, Other };

template <>
struct Names<ParticularKind> {
    static constexpr std::array<NameList<ParticularKind>, 7> all{
        {{"presence", ParticularKind::Presence},
         {"count", ParticularKind::Count},
         {"material", ParticularKind::Material},
         {"fastener", ParticularKind::Fastener},
         {"finish", ParticularKind::Finish},
         {"process", ParticularKind::Process},
         {"other", ParticularKind::Other}}};
};

/// A fact that is no quantity: that a part existed and how many, species, fastener, finish.
struct Particular {
    ParticularId id;
    std::optional<std::string> code;
    std::string name;
    std::optional<std::string> component;
    std::optional<ParticularKind> kind;
    std::optional<StateId> state;
    std::optional<std::string> setAside;
    std::optional<std::string> note;

    static constexpr auto fields() {
        return std::tuple{field("id", &Particular::id),
                          field("code", &Particular::code),
                          field("name", &Particular::name),
                          field("component", &Particular::component),
                          field("kind", &Particular::kind),
                          field("state", &Particular::state),
                          field("set_aside", &Particular::setAside),
                          field("note", &Particular::note)};
    }
    friend bool operator==(const Particular&, const Particular&) = default;
};

}  // namespace evidence::record

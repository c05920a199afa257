#pragma once

#include "evidence-core/record/table_row.h"
#include "evidence-core/record/value.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace evidence::record {

enum class DisplayUnit { Inch, Millimetre, Centimetre };

template <>
struct Names<DisplayUnit> {
    static constexpr std::array<NameList<DisplayUnit>, 3> all{{{"in", DisplayUnit::Inch},
                                                               {"mm", DisplayUnit::Millimetre},
                                                               {"cm", DisplayUnit::Centimetre}}};
};

/// What the reports say about the work as a whole.
struct Statement {
    std::optional<std::string> purpose;
    std::optional<std::string> significance;
    std::optional<std::string> method;
    std::optional<std::string> survives;
    std::optional<std::string> custody;
    std::optional<std::string> deposit;
    std::optional<std::string> labels;

    static constexpr auto fields() {
        return std::tuple{
            field("purpose", &Statement::purpose), field("significance", &Statement::significance),
            field("method", &Statement::method),   field("survives", &Statement::survives),
            field("custody", &Statement::custody), field("deposit", &Statement::deposit),
            field("labels", &Statement::labels)};
    }
    friend bool operator==(const Statement&, const Statement&) = default;
};

/// Thresholds, floors and defaults that differ from the standard ones. Absent: the standard one,
/// named beside each. They are printed in every report.
struct Settings {
    std::optional<double> conflictW;           ///< |w| of a conflict: 3.29
    std::optional<double> offPlaneDistance;    ///< assumed camera distance, inches: 240
    std::optional<double> guessFloorRelative;  ///< 0.03
    std::optional<double> guessFloorLength;    ///< inches, half-width: 0.25
    std::optional<double> guessFloorAngle;     ///< degrees, half-width: 2
    std::optional<double> guessFloorMass;      ///< relative: 0.10
    std::optional<double> guessFloorCount;     ///< 1
    std::optional<double> analogousRelative;   ///< standard: 0.02
    std::optional<double> markU;               ///< px per axis: 0.5
    std::optional<double> printURelative;      ///< 0.005
    std::optional<double> draughtsmanPlacing;  ///< inches on the paper per line end: 0.01
    std::optional<double> longChainSteps;      ///< 5
    std::optional<double> shareNotAboveF;      ///< 0.10
    std::optional<double> shareNotAboveT;      ///< 0.25
    std::optional<double> shareNotAboveB;      ///< 0.50
    std::optional<double> shareOurs;           ///< 0.80
    std::map<std::string, double> workmanshipByComponent;  ///< inches, standard
    std::vector<TableRow> tableRows;  ///< added by people; see evidence-core/trade

    static constexpr auto fields() {
        return std::tuple{field("conflict_w", &Settings::conflictW),
                          field("off_plane_distance", &Settings::offPlaneDistance),
                          field("guess_floor_relative", &Settings::guessFloorRelative),
                          field("guess_floor_length", &Settings::guessFloorLength),
                          field("guess_floor_angle", &Settings::guessFloorAngle),
                          field("guess_floor_mass", &Settings::guessFloorMass),
                          field("guess_floor_count", &Settings::guessFloorCount),
                          field("analogous_relative", &Settings::analogousRelative),
                          field("mark_u", &Settings::markU),
                          field("print_u_relative", &Settings::printURelative),
                          field("draughtsman_placing", &Settings::draughtsmanPlacing),
                          field("long_chain_steps", &Settings::longChainSteps),
                          field("share_not_above_f", &Settings::shareNotAboveF),
                          field("share_not_above_t", &Settings::shareNotAboveT),
                          field("share_not_above_b", &Settings::shareNotAboveB),
                          field("share_ours", &Settings::shareOurs),
                          field("workmanship_by_component", &Settings::workmanshipByComponent),
                          field("table_rows", &Settings::tableRows)};
    }
    friend bool operator==(const Settings&, const Settings&) = default;
};

/// The project itself.
struct ArchiveInfo {
    std::string title;
    std::optional<std::string> subject;
    std::optional<Statement> statement;
    std::optional<DisplayUnit> displayUnit;
    std::optional<int> smallestFraction;  ///< 2 … 128
    std::optional<double> workmanship;    ///< inches, standard; 0 where absent
    std::optional<Settings> settings;

    static constexpr auto fields() {
        return std::tuple{field("title", &ArchiveInfo::title),
                          field("subject", &ArchiveInfo::subject),
                          field("statement", &ArchiveInfo::statement),
                          field("display_unit", &ArchiveInfo::displayUnit),
                          field("smallest_fraction", &ArchiveInfo::smallestFraction),
                          field("workmanship", &ArchiveInfo::workmanship),
                          field("settings", &ArchiveInfo::settings)};
    }
    friend bool operator==(const ArchiveInfo&, const ArchiveInfo&) = default;
};

}  // namespace evidence::record

#pragma once

#include "evidence-core/record/id.h"
#include "evidence-core/record/value.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace evidence::record {

enum class SourceKind { Drawing, Photograph, Text, Part, Testimony, Rebuild, Standard };

template <>
struct Names<SourceKind> {
    static constexpr std::array<NameList<SourceKind>, 7> all{
        {{"drawing", SourceKind::Drawing},
         {"photograph", SourceKind::Photograph},
         {"text", SourceKind::Text},
         {"part", SourceKind::Part},
         {"testimony", SourceKind::Testimony},
         {"rebuild", SourceKind::Rebuild},
         {"standard", SourceKind::Standard}}};
};

enum class Authority { Maker, Eyewitness, Later, Modern };

template <>
struct Names<Authority> {
    static constexpr std::array<NameList<Authority>, 4> all{{{"maker", Authority::Maker},
                                                             {"eyewitness", Authority::Eyewitness},
                                                             {"later", Authority::Later},
                                                             {"modern", Authority::Modern}}};
};

enum class Standing { Proposal, Issued, AsBuilt, Altered, Unknown };

template <>
struct Names<Standing> {
    static constexpr std::array<NameList<Standing>, 5> all{{{"proposal", Standing::Proposal},
                                                            {"issued", Standing::Issued},
                                                            {"as-built", Standing::AsBuilt},
                                                            {"altered", Standing::Altered},
                                                            {"unknown", Standing::Unknown}}};
};

enum class DescentKind {
    Copy,
    Tracing,
    Redrawing,
    Excerpt,
    SameNegative,
    RebuiltFrom,
    ThisArchive
};

template <>
struct Names<DescentKind> {
    static constexpr std::array<NameList<DescentKind>, 7> all{
        {{"copy", DescentKind::Copy},
         {"tracing", DescentKind::Tracing},
         {"redrawing", DescentKind::Redrawing},
         {"excerpt", DescentKind::Excerpt},
         {"same-negative", DescentKind::SameNegative},
         {"rebuilt-from", DescentKind::RebuiltFrom},
         {"this-archive", DescentKind::ThisArchive}}};
};

/// Source → parent source. Sources joined by descent share one origin; the graph is acyclic.
struct Descent {
    SourceId from;
    DescentKind as = DescentKind::Copy;
    std::optional<std::string> reason;

    static constexpr auto fields() {
        return std::tuple{field("from", &Descent::from), field("as", &Descent::as),
                          field("reason", &Descent::reason)};
    }
    friend bool operator==(const Descent&, const Descent&) = default;
};

/// A digital surrogate of a source. `sha256`, `bytes`, `mediaType` and `pages` are found out on
/// import or take-in; `path` in an export is `originals/<sha256>.<ext>`.
struct File {
    FileId id;
    std::string path;
    std::optional<std::string> sha256;
    std::optional<std::string> originalName;
    std::optional<double> rasterDpi;  ///< of PDF pages; fixed once a mark exists
    std::optional<std::string> note;
    std::optional<std::int64_t> bytes;
    std::optional<std::string> mediaType;
    std::optional<int> pages;

    static constexpr auto fields() {
        return std::tuple{field("id", &File::id),
                          field("path", &File::path),
                          field("sha256", &File::sha256),
                          field("original_name", &File::originalName),
                          field("raster_dpi", &File::rasterDpi),
                          field("note", &File::note),
                          field("bytes", &File::bytes),
                          field("media_type", &File::mediaType),
                          field("pages", &File::pages)};
    }
    friend bool operator==(const File&, const File&) = default;
};

/// A drawing, photograph, text, surviving part, testimony, earlier rebuild or published standard.
struct Source {
    SourceId id;
    std::optional<std::string> code;
    std::string title;
    SourceKind kind = SourceKind::Drawing;
    std::optional<Authority> authority;  ///< modern where absent
    std::optional<Standing> standing;    ///< unknown where absent
    std::optional<std::string> creator;
    std::optional<std::string> date;      ///< EDTF
    std::optional<std::string> dateText;  ///< as written on it
    std::optional<std::string> holder;
    std::optional<std::string> callNumber;
    std::optional<std::string> rights;
    std::optional<bool> mayPrint;  ///< absent: not cleared, outlines only
    std::optional<std::string> medium;
    std::optional<std::array<double, 2>> originalSize;  ///< width, height in inches
    std::optional<double> figuredTo;                    ///< finest step used on it, inches
    std::optional<bool> firstHand;
    std::optional<bool> mirrored;
    std::optional<std::string> condition;
    std::optional<std::string> location;
    std::optional<std::string> keptHow;
    std::optional<std::string> setAside;  ///< why
    std::optional<bool> hadOurData;
    std::vector<StateId> states;
    std::optional<SourceId> replaces;
    std::vector<Descent> descends;
    std::optional<std::string> notes;
    std::vector<File> files;

    static constexpr auto fields() {
        return std::tuple{field("id", &Source::id),
                          field("code", &Source::code),
                          field("title", &Source::title),
                          field("kind", &Source::kind),
                          field("authority", &Source::authority),
                          field("standing", &Source::standing),
                          field("creator", &Source::creator),
                          field("date", &Source::date),
                          field("date_text", &Source::dateText),
                          field("holder", &Source::holder),
                          field("call_number", &Source::callNumber),
                          field("rights", &Source::rights),
                          field("may_print", &Source::mayPrint),
                          field("medium", &Source::medium),
                          field("original_size", &Source::originalSize),
                          field("figured_to", &Source::figuredTo),
                          field("first_hand", &Source::firstHand),
                          field("mirrored", &Source::mirrored),
                          field("condition", &Source::condition),
                          field("location", &Source::location),
                          field("kept_how", &Source::keptHow),
                          field("set_aside", &Source::setAside),
                          field("had_our_data", &Source::hadOurData),
                          field("states", &Source::states),
                          field("replaces", &Source::replaces),
                          field("descends", &Source::descends),
                          field("notes", &Source::notes),
                          field("files", &Source::files)};
    }
    friend bool operator==(const Source&, const Source&) = default;
};

}  // namespace evidence::record

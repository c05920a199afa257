#include "app/report/report.h"

#include "app/report/build_document.h"
#include "app/report/write_html.h"
#include "app/report/write_pdf.h"

#include <array>
#include <utility>

namespace app::report {

using evidence::Code;
using evidence::refuse;
using evidence::Result;

namespace {

constexpr std::array<std::pair<std::string_view, Kind>, 6> kKinds{{{"provenance", Kind::Provenance},
                                                                   {"short", Kind::Short},
                                                                   {"shop", Kind::Shop},
                                                                   {"slip", Kind::Slip},
                                                                   {"departures", Kind::Departures},
                                                                   {"guesses", Kind::Guesses}}};

}  // namespace

std::string_view nameOf(Kind kind) {
    for (const auto& [name, k] : kKinds)
        if (k == kind) return name;
    return {};
}

std::optional<Kind> kindNamed(std::string_view name) {
    for (const auto& [n, kind] : kKinds)
        if (n == name) return kind;
    return std::nullopt;
}

Result<void> writeReport(const session::Snapshot& snapshot, const OriginalLookup& originals,
                         const evidence::judgement::Analysis& analysis,
                         const ReportRequest& request, const std::filesystem::path& out) {
    const std::string extension = out.extension().string();
    if (extension != ".pdf" && extension != ".html")
        return refuse(Code::WrongUse, out.string(),
                      "A report is written as .pdf or .html: give the file one of these endings.");
    if (request.kind == Kind::Slip && !request.filter.on)
        return refuse(Code::WrongUse, "on",
                      "A slip is for one dimension or particular: say which (--on D12).");
    const RegisterIndex index(snapshot.reg, analysis);
    const Result<Selection> selection = select(index, request.filter);
    if (!selection) return tl::unexpected(selection.error());
    SheetCrops crops(originals);
    const Document document = buildDocument(index, *selection, request, crops);
    crops.load();
    if (extension == ".pdf")
        writePdf(document, request.paper, out);
    else
        writeHtml(document, out);
    return {};
}

}  // namespace app::report

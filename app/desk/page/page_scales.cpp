#include "app/desk/page/page_scales.h"

#include "app/session/live_length.h"
#include "evidence-core/quantity/significant.h"
#include "evidence-core/quantity/unit.h"

#include <QObject>

#include <algorithm>

namespace app::desk::page {

namespace judgement = evidence::judgement;
namespace quantity = evidence::quantity;
namespace record = evidence::record;

namespace {

constexpr double kTwoSided95 = 1.96;

const judgement::FrameResult* resultOf(const judgement::Analysis& analysis,
                                       const record::FrameId& frame) {
    const auto found = std::ranges::find(analysis.frames, frame, &judgement::FrameResult::id);
    return found == analysis.frames.end() ? nullptr : &*found;
}

}  // namespace

const record::Frame* scaleToAddTo(const record::Register& reg, const session::PageOfFile& page) {
    const auto found = std::ranges::find_if(reg.frames, [&](const record::Frame& frame) {
        return frame.file == page.file && frame.page.value_or(1) == page.page && !frame.setAside &&
               frame.model == record::FrameModel::Uniform && frame.region.empty();
    });
    return found == reg.frames.end() ? nullptr : &*found;
}

std::optional<record::FrameId> scaleToMeasureWith(const record::Register& reg,
                                                  const judgement::Analysis& analysis,
                                                  const session::PageOfFile& page) {
    const judgement::FrameResult* best = nullptr;
    for (const auto& id : session::scalesOf(reg, page.file, page.page)) {
        const auto* result = resultOf(analysis, id);
        if (result == nullptr || !result->inchesPerPixel || !result->uRelative) continue;
        if (best == nullptr || *result->uRelative < *best->uRelative) best = result;
    }
    if (best == nullptr) return std::nullopt;
    return best->id;
}

QString scaleInWords(const judgement::FrameResult& scale, const record::ArchiveInfo& archive) {
    if (!scale.inchesPerPixel || !scale.uRelative)
        return QObject::tr("scale: cannot be worked out yet");
    const auto shown = archive.displayUnit.value_or(record::DisplayUnit::Inch);
    const auto unit = shown == record::DisplayUnit::Inch         ? quantity::Unit::Inch
                      : shown == record::DisplayUnit::Centimetre ? quantity::Unit::Centimetre
                                                                 : quantity::Unit::Millimetre;
    const double pixels = quantity::toCanonical(1, unit) / *scale.inchesPerPixel;
    const double spread = kTwoSided95 * *scale.uRelative;
    constexpr int kDigits = 2;
    const int decimals =
        spread > 0 ? std::max(0, quantity::decimalsFor(pixels * spread, kDigits)) : kDigits;
    const QString figure = QString::fromStdString(quantity::decimalText(pixels, decimals));
    const QString percent =
        QString::fromStdString(quantity::significantText(100 * spread, kDigits));
    switch (shown) {
        case record::DisplayUnit::Inch:
            return QObject::tr("scale: %1 px to the inch ± %2 %").arg(figure, percent);
        case record::DisplayUnit::Millimetre:
            return QObject::tr("scale: %1 px to the millimetre ± %2 %").arg(figure, percent);
        case record::DisplayUnit::Centimetre:
            return QObject::tr("scale: %1 px to the centimetre ± %2 %").arg(figure, percent);
    }
    return {};
}

QString scalesInWords(const record::Register& reg, const judgement::Analysis& analysis,
                      const session::PageOfFile& page) {
    const auto scales = session::scalesOf(reg, page.file, page.page);
    if (scales.empty()) return QObject::tr("no scale yet");
    const auto best = scaleToMeasureWith(reg, analysis, page);
    if (!best) return QObject::tr("scale: cannot be worked out yet");
    const QString words = scaleInWords(*resultOf(analysis, *best), reg.archive);
    const auto others = static_cast<int>(scales.size()) - 1;
    if (others == 0) return words;
    return others == 1 ? QObject::tr("%1, and one other").arg(words)
                       : QObject::tr("%1, and %2 others").arg(words).arg(others);
}

}  // namespace app::desk::page

#include "app/desk/page/page_scales.h"

#include "app/desk/page/dimension_words.h"
#include "app/session/live_length.h"
#include "evidence-core/quantity/significant.h"
#include "evidence-core/quantity/unit.h"
#include "evidence-core/record/lookup.h"

#include <QObject>
#include <QStringList>

#include <algorithm>
#include <cstddef>

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

QString lengthWords(const record::Register& reg, const record::KnownLength& length) {
    if (length.dimension) {
        const auto* dimension = record::find(reg, *length.dimension);
        return dimension ? wordsOf(*dimension) : QString();
    }
    return length.value ? wordsOf(*length.value, length.unit) : QString();
}

QString byWhat(const record::Register& reg, const record::Frame& frame) {
    if (frame.print) return QObject::tr("by its print");
    QStringList lengths;
    for (const auto& reference : frame.references)
        if (!reference.setAside) lengths << lengthWords(reg, reference.length);
    return lengths.isEmpty() ? QObject::tr("without a reference")
                             : QObject::tr("by %1").arg(lengths.join(QStringLiteral(", ")));
}

}  // namespace

QString codeOfScale(const record::Register& reg, const record::FrameId& frame) {
    const auto found = std::ranges::find(reg.frames, frame, &record::Frame::id);
    return QLatin1Char('J') + QString::number(found - reg.frames.begin() + 1);
}

std::vector<ScaleChoice> scaleChoices(const record::Register& reg,
                                      const session::PageOfFile& page) {
    std::vector<ScaleChoice> choices;
    for (const auto& id : session::scalesOf(reg, page.file, page.page)) {
        const auto* frame = record::find(reg, id);
        choices.push_back({id, codeOfScale(reg, id) + QLatin1Char(' ') + byWhat(reg, *frame),
                           frame->model == record::FrameModel::Uniform});
    }
    return choices;
}

std::optional<record::FrameId> usualScale(const record::Register& reg,
                                          const session::PageOfFile& page) {
    std::optional<record::FrameId> usual;
    std::ptrdiff_t most = -1;
    for (const auto& id : session::scalesOf(reg, page.file, page.page)) {
        const auto uses = std::ranges::count_if(reg.readings, [&](const record::Reading& reading) {
            return reading.frame == id && !reading.setAside;
        });
        if (uses <= most) continue;
        most = uses;
        usual = id;
    }
    return usual;
}

bool isSized(const judgement::Analysis& analysis, const record::FrameId& frame) {
    const auto* result = resultOf(analysis, frame);
    return result != nullptr && result->inchesPerPixel && result->uRelative;
}

QString scaleInWords(const judgement::FrameResult& scale, const record::ArchiveInfo& archive) {
    if (!scale.inchesPerPixel || !scale.uRelative) return QObject::tr("cannot be worked out yet");
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
            return QObject::tr("%1 px to the inch ± %2 %").arg(figure, percent);
        case record::DisplayUnit::Millimetre:
            return QObject::tr("%1 px to the millimetre ± %2 %").arg(figure, percent);
        case record::DisplayUnit::Centimetre:
            return QObject::tr("%1 px to the centimetre ± %2 %").arg(figure, percent);
    }
    return {};
}

QString scalesInWords(const record::Register& reg, const judgement::Analysis& analysis,
                      const session::PageOfFile& page, const std::optional<record::FrameId>& used) {
    if (!used) return QObject::tr("no scale yet");
    const auto* result = resultOf(analysis, *used);
    const QString words = scaleInWords(result ? *result : judgement::FrameResult{}, reg.archive);
    const auto others = static_cast<int>(session::scalesOf(reg, page.file, page.page).size()) - 1;
    if (others < 1) return QObject::tr("scale: %1").arg(words);
    const QString more =
        others == 1 ? QObject::tr("one other") : QObject::tr("%1 others").arg(others);
    return QObject::tr("scale %1: %2 (%3)").arg(codeOfScale(reg, *used), words, more);
}

}  // namespace app::desk::page

#include "app/report/reading_words.h"

#include "app/report/value_words.h"
#include "app/report/wording.h"
#include "app/session/table_offer.h"

namespace app::report {

using namespace evidence::record;

Text readingTitle(const RegisterIndex& index, const Reading& reading) {
    Text words;
    words.add(index.code(reading.id.text) + u' ' + basisWords(reading.basis));
    if (const Source* source = index.sourceOfReading(reading))
        words.add(QStringLiteral(", ")).append(sourceShort(index, *source));
    else if (reading.source)
        words.add(QStringLiteral(", ") + index.label(reading.source->text));
    return words;
}

Text readingShort(const RegisterIndex& index, const Reading& reading) {
    Text words(index.code(reading.id.text));
    if (const Source* source = index.sourceOfReading(reading))
        words.add(QStringLiteral(" ("))
            .link(index.code(source->id.text), index.anchor(source->id.text))
            .add(QStringLiteral(")"));
    return words;
}

namespace {

void addSentence(Text& words, const Text& sentence) {
    if (sentence.empty()) return;
    if (!words.empty()) words.add(QStringLiteral(" "));
    words.append(sentence);
    const QString said = sentence.plain();
    if (!said.endsWith(u'.') && !said.endsWith(u'?') && !said.endsWith(u'!'))
        words.add(QStringLiteral("."));
}

// An excerpt that is the value itself would be said twice.
bool saysMore(const Reading& r) {
    const auto* given = r.value ? std::get_if<std::string>(&*r.value) : nullptr;
    return given == nullptr || *given != *r.excerpt;
}

QString spreadWords(const std::optional<double>& u, const std::optional<double>& halfWidth,
                    const std::optional<double>& roundedTo) {
    if (u) return QStringLiteral("u = %1").arg(rounded(*u, 2));
    if (halfWidth) return QStringLiteral("half-width %1").arg(rounded(*halfWidth, 2));
    if (roundedTo) return QStringLiteral("rounded to %1").arg(rounded(*roundedTo, 2));
    return {};
}

/// The row in words; as it stands where the tables do not have it.
QString tableRowWords(const RegisterIndex& index, const std::string& id) {
    const evidence::trade::Tables tables(index.reg);
    const auto* row = tables.find(id);
    return shown(row ? app::session::pickedWords(*row) : id);
}

Text correctionWords(const RegisterIndex& index, const Correction& c) {
    Text words(QStringLiteral("Corrected for ") + shown(c.label) + QStringLiteral(": "));
    if (c.add) words.add((*c.add >= 0 ? QStringLiteral("+") : QString()) + rounded(*c.add, 4));
    if (c.factor) words.add(QStringLiteral("× ") + rounded(*c.factor, 6));
    if (c.u) words.add(QStringLiteral(" (u = %1)").arg(rounded(*c.u, 2)));
    if (c.reason) words.add(QStringLiteral(", ") + shown(*c.reason));
    if (c.tableRow) words.add(QStringLiteral("; table row: ") + tableRowWords(index, *c.tableRow));
    words.add(QStringLiteral("; ") +
              (c.basis ? basisWords(*c.basis) : QStringLiteral("no basis given")));
    if (c.source)
        words.add(QStringLiteral(", "))
            .link(index.code(c.source->text), index.anchor(c.source->text));
    return words;
}

}  // namespace

Text readingDetail(const RegisterIndex& index, const Reading& r, const Dimension* dimension) {
    Text words;
    if (r.excerpt && saysMore(r))
        addSentence(words, Text(QStringLiteral("It says: “%1”").arg(shown(*r.excerpt))));
    if (r.value && dimension != nullptr) {
        Text as(QStringLiteral("As given: ") + writtenWords(*r.value, r.unit, dimension));
        const QString spread = spreadWords(r.u, r.halfWidth, r.roundedTo);
        if (!spread.isEmpty()) as.add(QStringLiteral(", ") + spread);
        addSentence(words, as);
    }
    if (r.low || r.high) {
        Text limits("Limits: ");
        if (r.low)
            limits.add(QStringLiteral("not below ") + writtenWords(*r.low, r.unit, dimension));
        if (r.low && r.high) limits.add(QStringLiteral(", "));
        if (r.high)
            limits.add(QStringLiteral("not above ") + writtenWords(*r.high, r.unit, dimension));
        addSentence(words, limits);
    }
    if (r.frame) {
        Text scale("Through scale ");
        scale.link(index.code(r.frame->text), index.anchor(r.frame->text));
        if (r.mark)
            if (const Mark* mark = index.mark(r.mark->text); mark != nullptr && mark->made)
                scale.add(QStringLiteral(", mark ") + madeWords(*mark->made));
        addSentence(words, scale);
    }
    if (r.offPlane) {
        const OffPlane& o = *r.offPlane;
        Text off(QStringLiteral("The mark lies %1 in %2 the camera than the scale’s plane")
                     .arg(rounded(std::abs(o.offset), 3), o.offset >= 0
                                                              ? QStringLiteral("nearer to")
                                                              : QStringLiteral("farther from")));
        if (o.u) off.add(QStringLiteral(" (u = %1)").arg(rounded(*o.u, 2)));
        off.add(QStringLiteral(", the camera %1 in away").arg(rounded(o.distance, 3)));
        if (o.reason) off.add(QStringLiteral(": ") + shown(*o.reason));
        addSentence(words, off);
    }
    for (const Correction& c : r.corrections) addSentence(words, correctionWords(index, c));
    if (r.feature)
        addSentence(words,
                    Text(QStringLiteral("The feature is ") +
                         (*r.feature == Feature::Original  ? QStringLiteral("original")
                          : *r.feature == Feature::Altered ? QStringLiteral("altered")
                                                           : QStringLiteral("of uncertain age"))));
    if (r.instrument)
        addSentence(words, Text(QStringLiteral("Measured with ") + shown(*r.instrument)));
    if (r.tableRow)
        addSentence(words, Text(QStringLiteral("Table row: ") + tableRowWords(index, *r.tableRow)));
    if (r.reason) addSentence(words, Text(QStringLiteral("Reason: ") + shown(*r.reason)));
    if (r.floorReason)
        addSentence(words, Text(QStringLiteral("Why so narrow: ") + shown(*r.floorReason)));
    if (r.by || r.on) {
        Text who;
        if (r.by) who.add(index.personName(r.by->text));
        if (r.on) who.add((who.empty() ? QString() : QStringLiteral(", ")) + dateWords(*r.on));
        addSentence(words, who);
    }
    if (r.setAside)
        addSentence(words,
                    Text().add(QStringLiteral("Set aside: ") + shown(*r.setAside), Tone::Red));
    return words;
}

namespace {

std::optional<double> uniformScale(const RegisterIndex& index, const Frame& frame) {
    // Only where one figure serves the whole page: a perspective has no single scale.
    if (frame.model != FrameModel::Uniform && frame.model != FrameModel::Printed &&
        frame.model != FrameModel::Stretch)
        return std::nullopt;
    const auto* result = index.frameResult(frame.id.text);
    return result == nullptr ? std::nullopt : result->inchesPerPixel;
}

Text pictureCaption(const RegisterIndex& index, const Source& source, int page, const QString& of) {
    Text caption(of);
    caption.add(QStringLiteral(" on ")).append(sourceWords(index, source));
    if (page > 1) caption.add(QStringLiteral(", page %1").arg(page));
    return caption;
}

void addKnownMarks(const RegisterIndex& index, const Frame& frame, CropWanted& wanted) {
    for (const Reference& reference : frame.references)
        if (const Mark* mark = index.mark(reference.mark.text);
            mark != nullptr && !reference.setAside)
            wanted.marks.push_back({mark, MarkRole::Known, QStringLiteral("known length")});
}

}  // namespace

std::vector<Figure> readingPictures(Writing& writing, const Reading& r, const QString& label) {
    const RegisterIndex& index = writing.index;
    std::vector<Figure> figures;
    CropWanted wanted;
    const auto take = [&](const MarkId& id, const QString& words) {
        const Mark* mark = index.mark(id.text);
        if (mark == nullptr) return;
        wanted.file = index.file(mark->file.text);
        wanted.source = index.sourceOfFile(mark->file.text);
        wanted.page = mark->page.value_or(1);
        wanted.marks.push_back({mark, MarkRole::Wanted, words});
    };
    if (r.mark) take(*r.mark, label);
    if (r.between) {
        take((*r.between)[0], label);
        take((*r.between)[1], {});
    }
    if (!wanted.marks.empty() && wanted.source != nullptr) {
        if (r.frame)
            if (const Frame* frame = index.frame(r.frame->text)) {
                addKnownMarks(index, *frame, wanted);
                wanted.inchesPerPixel = uniformScale(index, *frame);
            }
        Text caption = pictureCaption(index, *wanted.source, wanted.page, index.code(r.id.text));
        if (!wanted.inchesPerPixel)
            caption.add(QStringLiteral("; no scale bar, for a perspective has no single scale"));
        figures.push_back(writing.crops.figure(wanted, caption));
    }
    if (r.at && r.at->box) {
        const File* file = index.file(r.at->file.text);
        const Source* source = index.sourceOfFile(r.at->file.text);
        if (file != nullptr && source != nullptr) {
            const auto& b = *r.at->box;
            CropWanted excerpt;
            excerpt.file = file;
            excerpt.source = source;
            excerpt.page = r.at->page.value_or(1);
            const double room = 0.15 * std::max(b[2], b[3]) + 12;
            excerpt.box = QRectF(b[0] - room, b[1] - room, b[2] + 2 * room, b[3] + 2 * room);
            figures.push_back(writing.crops.figure(
                excerpt, pictureCaption(index, *source, excerpt.page, index.code(r.id.text))));
        }
    }
    return figures;
}

std::vector<Figure> scalePictures(Writing& writing, const Frame& frame) {
    const RegisterIndex& index = writing.index;
    const Source* source = index.sourceOfFile(frame.file.text);
    const File* file = index.file(frame.file.text);
    if (source == nullptr || file == nullptr) return {};
    std::vector<Figure> figures;
    int n = 0;
    for (const Reference& reference : frame.references) {
        ++n;
        const Mark* mark = index.mark(reference.mark.text);
        if (mark == nullptr || n > 4) continue;
        CropWanted wanted;
        wanted.source = source;
        wanted.file = file;
        wanted.page = frame.page.value_or(1);
        wanted.inchesPerPixel = uniformScale(index, frame);
        wanted.marks.push_back({mark, MarkRole::Wanted, QStringLiteral("known length %1").arg(n)});
        figures.push_back(writing.crops.figure(
            wanted, pictureCaption(index, *source, wanted.page,
                                   QStringLiteral("Known length %1 of scale %2")
                                       .arg(QString::number(n), index.code(frame.id.text)))));
    }
    return figures;
}

Text knownLengthWords(const RegisterIndex& index, const KnownLength& length) {
    if (length.dimension) {
        Text words("the dimension ");
        words.link(index.label(length.dimension->text), index.anchor(length.dimension->text));
        return words;
    }
    Text words;
    if (length.value) {
        Dimension inches;
        inches.quantity = DimensionQuantity::Length;
        words.add(writtenWords(*length.value, length.unit, &inches));
    }
    const QString spread = spreadWords(length.u, length.halfWidth, length.roundedTo);
    if (!spread.isEmpty()) words.add(QStringLiteral(", ") + spread);
    words.add(QStringLiteral(", ") + (length.basis ? basisWords(*length.basis)
                                      : length.source
                                          ? QStringLiteral("stated")
                                          : QStringLiteral("without a basis: a guess")));
    if (length.source)
        words.add(QStringLiteral(", "))
            .link(index.code(length.source->text), index.anchor(length.source->text));
    if (length.tableRow)
        words.add(QStringLiteral(", table row: ") + tableRowWords(index, *length.tableRow));
    if (length.reason) words.add(QStringLiteral(": ") + shown(*length.reason));
    return words;
}

}  // namespace app::report

#include "app/session/chosen.h"

#include "evidence-core/record/lookup.h"

#include <algorithm>

namespace app::session {

namespace record = evidence::record;

namespace {

/// The mark a reading was taken with; null for readings without one.
const record::Mark* markOf(const record::Reading& reading, const record::Register& reg) {
    if (reading.mark) return record::find(reg, *reading.mark);
    if (reading.between) return record::find(reg, reading.between->front());
    return nullptr;
}

bool usesMark(const record::Reading& reading, const record::MarkId& mark) {
    return reading.mark == mark ||
           (reading.between && std::ranges::count(*reading.between, mark) > 0);
}

void addPageOf(const record::FileId& file, int page, const record::Register& reg, Chosen& chosen) {
    chosen.page = {file, page};
    if (const auto* source = record::sourceOf(reg, file); source && chosen.source.empty())
        chosen.source = source->id;
}

void addMark(const record::Mark& mark, const record::Register& reg, Chosen& chosen) {
    chosen.mark = mark.id;
    addPageOf(mark.file, mark.page.value_or(1), reg, chosen);
}

void addSource(const record::Source& source, const record::Register& reg, Chosen& chosen) {
    chosen.source = source.id;
    if (!source.files.empty()) addPageOf(source.files.front().id, 1, reg, chosen);
}

void addReading(const record::Reading& reading, const record::Register& reg, Chosen& chosen) {
    if (const auto* mark = markOf(reading, reg)) return addMark(*mark, reg, chosen);
    if (reading.at) return addPageOf(reading.at->file, reading.at->page.value_or(1), reg, chosen);
    if (!reading.source) return;
    if (const auto* source = record::find(reg, *reading.source)) addSource(*source, reg, chosen);
}

/// The page of the first reading that has a mark and counts, else of the first reading.
void addEvidenceOf(const record::AnyId& size, const record::Register& reg, Chosen& chosen) {
    chosen.size = size;
    const record::Reading* best = nullptr;
    for (const auto& reading : reg.readings) {
        if (reading.of != size || reading.setAside) continue;
        if (!best) best = &reading;
        if (markOf(reading, reg)) {
            best = &reading;
            break;
        }
    }
    if (best) addReading(*best, reg, chosen);
}

/// The size that a mark measures, or that its length is a reference of.
record::AnyId sizeOf(const record::MarkId& mark, const record::Register& reg) {
    for (const auto& reading : reg.readings)
        if (!reading.setAside && usesMark(reading, mark)) return reading.of;
    for (const auto& frame : reg.frames)
        for (const auto& reference : frame.references)
            if (reference.mark == mark && reference.length.dimension)
                return record::any(*reference.length.dimension);
    return {};
}

void addFrame(const record::Frame& frame, const record::Register& reg, Chosen& chosen) {
    if (!frame.references.empty()) {
        chosen.mark = frame.references.front().mark;
        chosen.size = sizeOf(chosen.mark, reg);
    }
    addPageOf(frame.file, frame.page.value_or(1), reg, chosen);
}

}  // namespace

bool canBeSetAside(const record::AnyId& id, const record::Register& reg) {
    bool can = false;
    record::forEachTable(reg, [&](std::string_view, const auto& table) {
        using Record = typename std::decay_t<decltype(table)>::value_type;
        if constexpr (requires(const Record& held) { held.setAside.has_value(); })
            for (const auto& held : table) can = can || (held.id.text == id.text && !held.setAside);
    });
    return can;
}

Chosen allAbout(const record::AnyId& record, const record::Register& reg) {
    Chosen chosen;
    chosen.record = record;
    // A part of a record, as the reference `g1/0`, stands for its record.
    const record::AnyId id{record.text.substr(0, record.text.find('/'))};
    if (record::find(reg, record::DimensionId{id.text}) ||
        record::find(reg, record::ParticularId{id.text}))
        addEvidenceOf(id, reg, chosen);
    else if (const auto* mark = record::find(reg, record::MarkId{id.text})) {
        chosen.size = sizeOf(mark->id, reg);
        addMark(*mark, reg, chosen);
    } else if (const auto* reading = record::find(reg, record::ReadingId{id.text})) {
        chosen.size = reading->of;
        addReading(*reading, reg, chosen);
    } else if (const auto* frame = record::find(reg, record::FrameId{id.text}))
        addFrame(*frame, reg, chosen);
    else if (const auto* source = record::find(reg, record::SourceId{id.text}))
        addSource(*source, reg, chosen);
    else if (record::find(reg, record::FileId{id.text}))
        addPageOf({id.text}, 1, reg, chosen);
    return chosen;
}

}  // namespace app::session

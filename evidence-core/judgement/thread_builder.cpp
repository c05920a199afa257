#include "evidence-core/judgement/thread_builder.h"

#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

namespace evidence::judgement {

namespace {

std::string detailOf(const record::Source& source) {
    std::string detail(record::nameOf(source.kind));
    if (source.date) detail += ", " + *source.date;
    if (source.holder) detail += ", " + *source.holder;
    if (source.callNumber) detail += " " + *source.callNumber;
    return detail;
}

std::string detailOf(const record::Reading& reading) {
    std::string detail(record::nameOf(reading.basis));
    if (reading.excerpt) detail += ": “" + *reading.excerpt + "”";
    if (reading.reason) detail += ": " + *reading.reason;
    if (reading.setAside) detail += "; set aside: " + *reading.setAside;
    return detail;
}

}  // namespace

std::size_t ThreadBuilder::node(const std::string& id, ThreadStage stage, const std::string& title,
                                const std::string& detail) {
    if (const auto known = m_nodes.find(id); known != m_nodes.end()) return known->second;
    ThreadNode made;
    made.id = id;
    made.stage = stage;
    made.title = title;
    made.detail = detail;
    m_thread.nodes.push_back(std::move(made));
    m_nodes.emplace(id, m_thread.nodes.size() - 1);
    return m_thread.nodes.size() - 1;
}

void ThreadBuilder::link(std::size_t from, std::size_t to, double share) {
    if (const auto known = m_links.find({from, to}); known != m_links.end()) {
        m_thread.links[known->second].share += share;
        return;
    }
    m_links.emplace(std::pair(from, to), m_thread.links.size());
    m_thread.links.push_back({from, to, share});
}

std::size_t ThreadBuilder::sourceNode(const record::Source& source) {
    const auto made = node(source.id.text, ThreadStage::Source, nameOf(source), detailOf(source));
    if (source.setAside) at(made).setAside = true;
    return made;
}

std::size_t ThreadBuilder::readingNode(const record::Reading& reading, ThreadStage stage) {
    const auto made = node(reading.id.text, stage,
                           sentence(nameOfLeaf(m_index, reading.id.text, m_on)), detailOf(reading));
    at(made).guess =
        reading.basis == record::Basis::Guessed || reading.basis == record::Basis::Assumed;
    at(made).setAside = reading.setAside.has_value();
    return made;
}

std::size_t ThreadBuilder::scaleNode(const record::Frame& frame) {
    const auto made = node(frame.id.text, ThreadStage::Scale, sentence(nameOf(m_index, frame)),
                           fmt::format("{} scale", record::nameOf(frame.model)));
    at(made).setAside = frame.setAside.has_value();
    return made;
}

void ThreadBuilder::linkOrigin(const record::Reading& reading, std::size_t to, double share) {
    const auto* source = m_index.sourceOf(reading);
    std::size_t next = to;
    if (const auto* mark = m_index.markOf(reading)) {
        next = node(
            mark->id.text, ThreadStage::Mark,
            fmt::format("{} marked on page {}", record::nameOf(mark->kind), mark->page.value_or(1)),
            mark->made ? std::string(record::nameOf(*mark->made)) : std::string("placed"));
        if (mark->setAside) at(next).setAside = true;
        link(next, to, share);
    } else if (reading.excerpt || reading.at) {
        next =
            node(reading.id.text + "/excerpt", ThreadStage::Mark,
                 reading.excerpt ? "“" + *reading.excerpt + "”" : "A place on the page", "excerpt");
        link(next, to, share);
    }
    if (source) link(sourceNode(*source), next, share);
}

Thread ThreadBuilder::take() {
    m_thread.on = m_on;
    return std::move(m_thread);
}

}  // namespace evidence::judgement

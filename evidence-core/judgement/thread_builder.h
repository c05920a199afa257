#pragma once

#include "evidence-core/judgement/index.h"
#include "evidence-core/judgement/thread.h"

#include <map>
#include <string>
#include <utility>

/// Private to judgement/: a thread in the making. A node is made once for each id; shares of one
/// link add up.
namespace evidence::judgement {

class ThreadBuilder {
  public:
    /// `on`: the dimension or particular it leads to.
    ThreadBuilder(const Index& index, std::string on) : m_index(index), m_on(std::move(on)) {}

    std::size_t node(const std::string& id, ThreadStage stage, const std::string& title,
                     const std::string& detail);
    [[nodiscard]] ThreadNode& at(std::size_t node) { return m_thread.nodes[node]; }
    void link(std::size_t from, std::size_t to, double share);

    /// Nodes of what is known, with what lies before them up to the sources.
    std::size_t sourceNode(const record::Source& source);
    std::size_t readingNode(const record::Reading& reading, ThreadStage stage);
    std::size_t scaleNode(const record::Frame& frame);
    /// Links the mark or the excerpt of a reading, and its source, to the reading's node.
    void linkOrigin(const record::Reading& reading, std::size_t node, double share);

    [[nodiscard]] Thread take();

  private:
    const Index& m_index;
    std::string m_on;
    Thread m_thread;
    std::map<std::string, std::size_t> m_nodes;
    std::map<std::pair<std::size_t, std::size_t>, std::size_t> m_links;
};

}  // namespace evidence::judgement

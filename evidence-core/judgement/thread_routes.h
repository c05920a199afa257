#pragma once

#include "evidence-core/judgement/index.h"
#include "evidence-core/judgement/thread_builder.h"

#include <map>
#include <string>
#include <vector>

namespace evidence::judgement {

/// Private to judgement/: the shortest way of every piece of evidence to one value, through
/// readings, scales, relations and other sizes. Where two ways are equally short the first by
/// content is taken.
class Routes {
  public:
    Routes(const Index& index, const std::string& target);

    /// Ids from the leaf to the value, both included; empty where nothing joins them.
    [[nodiscard]] std::vector<std::string> from(const std::string& leaf) const;
    /// The node of one id of a route.
    std::size_t nodeOf(const std::string& id, ThreadBuilder& builder) const;

  private:
    [[nodiscard]] std::vector<std::string> neighboursOf(const std::string& id) const;

    const Index& m_index;
    std::map<std::string, std::string> m_next;  ///< id → the id one step nearer to the value
    std::map<std::string, int> m_distance;      ///< steps to the value
    std::map<std::string, bool> m_behindScale;  ///< reached through a scale
    std::map<std::string, std::vector<std::string>> m_readingsThrough;  ///< by scale
    std::map<std::string, std::vector<std::string>> m_relationsOf;      ///< by dimension
    std::map<std::string, std::vector<std::string>> m_dimensionsIn;     ///< by relation
    std::map<std::string, std::vector<std::string>> m_sharedOn;         ///< by record
    std::map<std::string, std::vector<std::string>> m_scalesBy;  ///< references, by dimension
};

}  // namespace evidence::judgement

#pragma once

#include "evidence-core/network/equations.h"

#include <map>
#include <set>
#include <string>

/// Private to network/: collects leaves, unknowns and rows while the equations are written.
namespace evidence::network {

class EquationBuilder {
  public:
    EquationBuilder(const RegisterIndex& index, const Origins& origins, const Triage& triage);

    Result<Equations> build();

  private:
    std::size_t leaf(Leaf leaf);
    [[nodiscard]] Leaf leafOf(LeafKind kind, std::string id,
                              const std::optional<record::Basis>& basis,
                              const std::optional<record::SourceId>& source) const;
    /// An error unknown of that leaf; the same key gives the same unknown.
    std::size_t error(const std::string& key, std::size_t leaf, double prior, double u,
                      ErrorShape shape);

    void countMarkUses();
    void addDimensions();
    /// Answers all frames in the order of their content.
    std::vector<std::size_t> addScales();
    void addReading(std::size_t triaged);
    void addLimits();
    void addFrame(std::size_t frame);
    void addReference(std::size_t frame, std::size_t place);
    Result<void> addRelation(std::size_t relation);
    void addPriors();
    void fold();
    void sortByContent();

    /// Own error of a pixel measure: one σ where its marks are used once, else the marks' errors.
    struct PixelError {
        double ownU = 0;
        std::vector<Slope> shared;
    };
    PixelError pixelError(const PixelMeasure& measure);
    /// Errors that act on a size in inches: shared ones (relative, absolute), workmanship, placing.
    struct SizeErrors {
        std::vector<Slope> relative;  ///< unknown, coefficient
        std::vector<Slope> absolute;
    };
    SizeErrors sharedErrors(const std::string& record);
    void addWorkmanship(SizeErrors& errors, std::size_t dimension, const std::string& article);
    void addPlacing(SizeErrors& errors, const record::Frame& frame, const record::Source* source,
                    const std::string& what);

    const RegisterIndex& m_index;
    const record::Register& m_reg;
    const Origins& m_origins;
    const Triage& m_triage;
    Equations m_eq;
    std::map<std::string, std::size_t> m_leafById;
    std::map<std::string, std::size_t> m_errorByKey;
    std::map<std::string, int> m_markUses;
    std::multimap<std::string, std::pair<std::size_t, double>> m_sharedOn;  ///< record → error
};

}  // namespace evidence::network

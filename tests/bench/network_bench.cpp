#include "evidence-core/network/adjust.h"
#include "evidence-core/network/echo.h"
#include "evidence-core/network/equations.h"
#include "evidence-core/network/fit.h"
#include "evidence-core/network/solution.h"
#include "tests/support/large_register.h"

#include <benchmark/benchmark.h>
#include <cholmod.h>
#include <sys/resource.h>

#include <chrono>
#include <fstream>
#include <string>

/// Time and memory of the network against one bare CHOLMOD analyse, factorise and solve of the same
/// normal matrix in the same run.
namespace {

using namespace evidence;
using namespace evidence::network;

using Clock = std::chrono::steady_clock;

double seconds(Clock::time_point since) {
    return std::chrono::duration<double>(Clock::now() - since).count();
}

record::Register registerOf(std::int64_t dimensions) {
    return testsupport::largeRegister({.dimensions = static_cast<int>(dimensions)});
}

/// The equations of the whole register, ready to be adjusted, and its largest part.
struct Prepared {
    explicit Prepared(const record::Register& reg) : index(reg), origins(reg.sources) {
        auto sorted = triage(index, origins).value();
        tellEchoes(sorted, origins, std::vector<bool>(sorted.readings.size(), false));
        eq = equationsOf(index, origins, sorted).value();
        findStartValues(eq);
        x.resize(static_cast<Eigen::Index>(eq.unknowns.size()));
        for (std::size_t i = 0; i < eq.unknowns.size(); ++i)
            x(static_cast<Eigen::Index>(i)) = eq.unknowns[i].start;
        RowMask use(eq.rows.size());
        for (std::size_t r = 0; r < use.size(); ++r) use[r] = eq.rows[r].role == RowRole::Adjust;
        for (auto& part : connectedParts(eq, use))
            if (part.unknowns.size() > largest.unknowns.size()) largest = std::move(part);
    }
    RegisterIndex index;
    Origins origins;
    Equations eq;
    Eigen::VectorXd x;
    PartMembers largest;
};

/// Seconds of a bare supernodal analyse + factorise + solve of N = BᵀB.
double bare(const SparseRows& b) {
    Eigen::SparseMatrix<double> n =
        (Eigen::SparseMatrix<double>(b.transpose()) * Eigen::SparseMatrix<double>(b))
            .triangularView<Eigen::Lower>();
    cholmod_common common;
    cholmod_start(&common);
    common.supernodal = CHOLMOD_SUPERNODAL;
    cholmod_sparse view{};
    view.nrow = view.ncol = static_cast<std::size_t>(n.cols());
    view.nzmax = static_cast<std::size_t>(n.nonZeros());
    view.p = n.outerIndexPtr();
    view.i = n.innerIndexPtr();
    view.x = n.valuePtr();
    view.stype = -1;
    view.itype = CHOLMOD_INT;
    view.xtype = CHOLMOD_REAL;
    view.dtype = CHOLMOD_DOUBLE;
    view.sorted = view.packed = 1;
    cholmod_dense* rhs = cholmod_ones(view.nrow, 1, CHOLMOD_REAL, &common);
    const auto start = Clock::now();
    cholmod_factor* factor = cholmod_analyze(&view, &common);
    cholmod_factorize(&view, factor, &common);
    cholmod_dense* solution = cholmod_solve(CHOLMOD_A, factor, rhs, &common);
    const double out = seconds(start);
    cholmod_free_dense(&solution, &common);
    cholmod_free_dense(&rhs, &common);
    cholmod_free_factor(&factor, &common);
    cholmod_finish(&common);
    return out;
}

double peakMegabytes() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024;
}

void network(benchmark::State& state) {
    const auto reg = registerOf(state.range(0));
    double linearisation = 0, single = 0;
    {
        Prepared prepared(reg);
        Adjuster adjuster(prepared.eq);
        auto x = prepared.x;
        const auto start = Clock::now();
        const auto part = adjuster.run(prepared.largest.unknowns, prepared.largest.rows, x);
        const double whole = seconds(start);
        if (!part.influence) return state.SkipWithError("the part did not converge");
        single = bare(part.influence->reducedRows());
        // The last linearisation pays for all variances too, which makes this an upper bound.
        linearisation = whole / (part.iterations + 1);
        state.counters["unknowns"] = static_cast<double>(prepared.largest.unknowns.size());
        state.counters["iterations"] = part.iterations;
    }
    double everything = 0;
    for (auto _ : state) {
        const auto start = Clock::now();
        auto solution = solve(reg);
        everything = seconds(start);
        benchmark::DoNotOptimize(solution);
    }
    state.counters["bare_s"] = single;
    state.counters["linearisation_per_bare"] = linearisation / single;
    state.counters["everything_per_bare"] = everything / single;
    state.counters["peak_MB"] = peakMegabytes();
}
BENCHMARK(network)
    ->RangeMultiplier(10)
    ->Range(100, 100000)
    ->Unit(benchmark::kMillisecond)
    ->Iterations(1);

}  // namespace

BENCHMARK_MAIN();

#include "imaging/task/answer.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <charconv>
#include <cmath>

namespace imaging::task {
namespace {

using Json = nlohmann::ordered_json;

/// A number rounded to 12 significant digits, so that it prints with no more.
double rounded(double value) {
    const std::string text = fmt::format("{:.11e}", value);
    double result = value;
    std::from_chars(text.data(), text.data() + text.size(), result);
    return result;
}

Json numberOrNull(const std::optional<double>& value) {
    return value ? Json(rounded(*value)) : Json(nullptr);
}

template <class Matrix>
Json matrixJson(const Matrix& matrix) {
    Json rows = Json::array();
    for (Eigen::Index i = 0; i < matrix.rows(); ++i) {
        Json row = Json::array();
        for (Eigen::Index j = 0; j < matrix.cols(); ++j) {
            row.push_back(rounded(matrix(i, j)));
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

Json pointJson(const mark::PixelPoint& p) {
    return Json::array({rounded(p.x()), rounded(p.y())});
}

Json markJson(const TaskMark& asked, const mark::FittedMark& fitted) {
    Json points = Json::array();
    for (const auto& p : fitted.points) {
        points.push_back(pointJson(p));
    }
    Json json = {{"id", asked.id},
                 {"points", points},
                 {"covariance",
                  fitted.pointCovariances.empty() ? matrixJson(fitted.covariance) : Json(nullptr)},
                 {"rms_px", rounded(fitted.rmsPx)},
                 {"used", fitted.used},
                 {"made", fitted.made == mark::Fit::None ? "picked" : mark::fitName(fitted.made)}};
    if (fitted.circle) {
        json["fit"] = {{"centre", pointJson(fitted.circle->centre)},
                       {"radius", rounded(fitted.circle->radius)},
                       {"covariance", matrixJson(fitted.circle->covariance)}};
    }
    if (fitted.ellipse) {
        json["fit"] = {
            {"centre", pointJson(fitted.ellipse->centre)},
            {"axes", Json::array({rounded(fitted.ellipse->a), rounded(fitted.ellipse->b)})},
            {"angle", rounded(fitted.ellipse->angle)},
            {"covariance", matrixJson(fitted.ellipse->covariance)}};
    }
    if (!fitted.pointCovariances.empty()) {
        // Of the traced points one by one: they are independent.
        json["point_covariances"] = Json::array();
        for (const auto& covariance : fitted.pointCovariances) {
            json["point_covariances"].push_back(matrixJson(covariance));
        }
    }
    if (!fitted.teeth.empty()) {
        json["teeth"] = fitted.teeth;
    }
    if (fitted.widthPx) {
        json["width_px"] = rounded(*fitted.widthPx);
    }
    return json;
}

Json checksJson(const Task& task, const std::vector<Check>& checks) {
    Json list = Json::array();
    for (const Check& check : checks) {
        list.push_back({{"mark", task.marks[check.mark].id},
                        {"residual", rounded(check.residual)},
                        {"w", numberOrNull(check.w)},
                        {"mde", numberOrNull(check.mde)}});
    }
    return list;
}

Json vectorJson(const Eigen::VectorXd& vector) {
    Json list = Json::array();
    for (Eigen::Index i = 0; i < vector.size(); ++i) {
        list.push_back(rounded(vector(i)));
    }
    return list;
}

void addScale(Json& json, const ScaleSolution& solution) {
    const double u = solution.uScale;
    json["inches_per_pixel"] = rounded(solution.scale.value);
    json["u_relative"] = rounded(u / solution.scale.value);
    json["parameters"] = Json::array({"inches_per_pixel"});
    json["covariance"] = Json::array({Json::array({rounded(u * u)})});
    if (solution.fit) {
        json["chi2"] = rounded(solution.fit->chi2);
        json["redundancy"] = solution.fit->redundancy;
    }
}

/// What a person reads of the model's parameters, beside the parameters themselves.
void addModel(Json& json, const frame::PlaneSolution& solution, FrameModel model) {
    json["matrix"] = matrixJson(solution.map.matrix());
    if (model == FrameModel::Stretch) {
        using evidence::frame::PlaneMap;
        const auto& p = solution.map.parameters;
        const double unit = solution.map.unit;
        const double sx = std::hypot(p(PlaneMap::A), p(PlaneMap::C)) / unit;
        const double area = p(PlaneMap::A) * p(PlaneMap::D) - p(PlaneMap::B) * p(PlaneMap::C);
        json["scale_x"] = rounded(sx);
        json["scale_y"] = rounded(std::abs(area) / (unit * unit) / sx);
        json["shear"] =
            rounded((p(PlaneMap::A) * p(PlaneMap::B) + p(PlaneMap::C) * p(PlaneMap::D)) /
                    (unit * unit) / (sx * sx));
    }
}

void addModel(Json& json, const frame::LineSolution& solution, FrameModel) {
    json["origin"] = pointJson(solution.map.origin);
    json["along"] = pointJson(solution.map.along);
    json["unit_px"] = rounded(solution.map.unit);
}

void addModel(Json& json, const frame::UprightSolution& solution, FrameModel) {
    const double psi = solution.map.parameters(evidence::frame::UprightMap::Psi);
    const double delta = solution.map.parameters(evidence::frame::UprightMap::Delta);
    const mark::PixelPoint normal(std::cos(psi), std::sin(psi));
    // cos ψ·x + sin ψ·y = offset, in sheet pixels.
    json["horizon"] = {
        {"normal", pointJson(normal)},
        {"offset_px", rounded(delta * solution.map.unit + normal.dot(solution.map.centre))}};
}

void addModel(Json& json, const frame::CameraSolution& solution, FrameModel) {
    json["focal_px"] = rounded(solution.map.focal());
    json["u_focal_px"] =
        rounded(solution.map.focal() * std::sqrt(solution.adjustment.covariance(6, 6)));
    json["position_in"] = vectorJson(solution.map.centre());
    json["rotation"] = matrixJson(solution.map.rotation());
}

template <class Solution>
void addSolution(Json& json, const Solution& solution, FrameModel model) {
    json["parameters"] = solution.names;
    json["values"] = vectorJson(solution.adjustment.parameters);
    json["covariance"] = matrixJson(solution.adjustment.covariance);
    json["chi2"] = rounded(solution.adjustment.chi2);
    json["redundancy"] = solution.adjustment.redundancy;
    addModel(json, solution, model);
}

Json frameJson(const Task& task, const SolvedFrame& frame) {
    Json json = {{"model", task.frame->modelName}, {"rms_px", rounded(frame.rmsPx)}};
    std::visit(
        [&](const auto& solution) {
            if constexpr (std::is_same_v<std::decay_t<decltype(solution)>, ScaleSolution>) {
                addScale(json, solution);
            } else {
                addSolution(json, solution, task.frame->model);
            }
        },
        frame.solution);
    json["references"] = checksJson(task, frame.references);
    if (!frame.points.empty()) {
        json["points"] = checksJson(task, frame.points);
    }
    if (frame.lensFit) {
        const frame::LensSolution& fit = *frame.lensFit;
        const auto& p = fit.lens.parameters;
        json["lens"] = {{"centre", pointJson(p.head<2>())},
                        {"unit_px", rounded(fit.lens.unit)},
                        {"k1", rounded(p(2))},
                        {"k2", rounded(p(3))},
                        {"covariance", matrixJson(fit.covariance)},
                        {"rms_px", rounded(fit.rmsPx)},
                        {"reach_px", rounded(fit.reach)}};
    }
    if (frame.floorPx > 0) {
        json["floor_px"] = rounded(frame.floorPx);
    }
    if (!frame.notes.empty()) {
        json["notes"] = frame.notes;
    }
    return json;
}

}  // namespace

std::string answerJson(const Task& task, const std::vector<mark::FittedMark>& marks,
                       const std::optional<SolvedFrame>& frame,
                       const std::vector<Answer>& answers) {
    Json json;
    json["frame"] = frame ? frameJson(task, *frame) : Json(nullptr);
    json["marks"] = Json::array();
    for (std::size_t i = 0; i < marks.size(); ++i) {
        json["marks"].push_back(markJson(task.marks[i], marks[i]));
    }
    json["results"] = Json::array();
    for (const Answer& answer : answers) {
        json["results"].push_back({{"id", answer.id},
                                   {"value", rounded(answer.value)},
                                   {"u", rounded(answer.u)},
                                   {"low95", rounded(answer.low95)},
                                   {"high95", rounded(answer.high95)},
                                   {"unit", answer.unit}});
    }
    return json.dump(2, ' ', false, Json::error_handler_t::replace);
}

}  // namespace imaging::task

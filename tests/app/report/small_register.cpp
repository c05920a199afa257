#include "tests/app/report/small_register.h"

#include <QCryptographicHash>
#include <QFile>
#include <QImage>
#include <QPainter>

namespace tests::report {

namespace record = evidence::record;
using record::Basis;
using testsupport::RegisterBuilder;

namespace {

// A sheet with ruled lines to measure on, and grain, so that two parts of it never look alike.
std::string drawSheet(const std::filesystem::path& path, const QColor& paper) {
    QImage sheet(900, 600, QImage::Format_RGB888);
    sheet.fill(paper);
    QPainter painter(&sheet);
    painter.setPen(QPen(Qt::black, 3));
    for (int x = 100; x < 900; x += 100) painter.drawLine(x, 40, x, 560);
    painter.end();
    for (int y = 0; y < sheet.height(); ++y)
        for (int x = 0; x < sheet.width(); ++x)
            if ((x * 7919 + y * 104729) % 31 == 0)
                sheet.setPixelColor(x, y, sheet.pixelColor(x, y).darker(115));
    EXPECT_TRUE(sheet.save(QString::fromStdString(path.string())));
    QFile file(QString::fromStdString(path.string()));
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    return QCryptographicHash::hash(file.readAll(), QCryptographicHash::Sha256)
        .toHex()
        .toStdString();
}

}  // namespace

SmallRegister::SmallRegister() {
    auto& archive = built.reg.archive;
    archive.title = "Teal";
    archive.subject = "Inspection railcar of the Corran Valley Light Railway";
    archive.statement = record::Statement{};
    archive.statement->purpose = "To build the car again as it first ran.";
    built.reg.people.front().role = record::Role::Compiler;
    built.reg.people.push_back({.id = {"p2"}, .name = "Ben Carr", .role = record::Role::Builder});
    built.reg.people.push_back({.id = {"p3"}, .name = "Cora Dane", .role = record::Role::Reviewer});
    built.reg.states.push_back({.id = {"w1"}, .label = "as first built", .from = "1911"});
    addSources();
    addEvidence();
    addDecisions();
}

void SmallRegister::addSources() {
    using record::Authority;
    using record::SourceKind;
    const auto pictured = [&](const char* id, const char* title, SourceKind kind,
                              const QColor& paper) -> record::Source& {
        auto& source = built.pictured(id, title, kind, Authority::Maker);
        source.files.front().sha256 = drawSheet(folder() / source.files.front().path, paper);
        source.files.front().mediaType = "image/png";
        return source;
    };
    auto& drawing =
        pictured("s1", "General arrangement", SourceKind::Drawing, QColor(244, 236, 216));
    drawing.holder = "Corran Valley Museum";
    drawing.callNumber = "CVR/D/47";
    drawing.mayPrint = true;
    auto& photograph =
        pictured("s2", "Works photograph", SourceKind::Photograph, QColor(120, 120, 118));
    photograph.holder = "Dale Collection";
    photograph.callNumber = "PH 218";
    auto& part = built.source("s3", "Axlebox casting", SourceKind::Part);
    part.callNumber = "1987.12";
    auto& ledger = built.source("s4", "Works ledger", SourceKind::Text);
    ledger.callNumber = "CVR/L/3";
    record::Enquiry enquiry;
    enquiry.id = {"n1"};
    enquiry.asked = "County Record Office";
    enquiry.by = {"p1"};
    enquiry.on = "2025-11-03";
    enquiry.text = "Any drawing of the railcar?";
    enquiry.answer = "Nothing was found.";
    built.reg.enquiries.push_back(enquiry);
}

void SmallRegister::addEvidence() {
    const auto component = [](record::Dimension& d, const char* path) -> record::Dimension& {
        d.component = path;
        d.state = record::StateId{"w1"};
        return d;
    };
    component(built.dimension("d1", "Door width"), "Body/Door").tolerance = 0.125;
    component(built.dimension("d2", "Window width"), "Body/Sides");
    component(built.dimension("d3", "Brake lever"), "Brake").critical = true;
    component(built.dimension("d4", "Axlebox bore"), "Running gear").quantity =
        record::DimensionQuantity::Diameter;
    component(built.dimension("d5", "Hoop rise"), "Body/Roof").tolerance = 0.25;
    for (const char* source : {"s1", "s2"}) {
        const std::string n(source + 1);
        built.segment("known" + n, source, 600);
        built.segment("wanted" + n, source, 200);
        auto& frame = built.uniform("g" + n, source);
        built.reference(frame, "known" + n, 60, 0.05, "s4", Basis::Stated);
        built.scaled("r" + n, "d" + n, "g" + n, "wanted" + n).by = record::PersonId{"p1"};
    }
    built.guess("r3", "d3", 24, 1).on = "2025-12-01";
    built.reading("r4", "d4", Basis::Gauged, "s3", RegisterBuilder::number(2.749), 0.002).feature =
        record::Feature::Original;
    built.reading("r5", "d5", Basis::Figured, "s1", std::string("3'-7 5/16\""), 0.02);
    built.reading("r6", "d5", Basis::Stated, "s4", std::string("3'-8 5/16\""), 0.02);
    built.reading("r7", "d4", Basis::Told, "s4", RegisterBuilder::number(3), 0.1).setAside =
        "He spoke of another car.";
    built.particular("q1", "Body colour").kind = record::ParticularKind::Finish;
    built.reg.particulars.back().code = "P1";
    built.reg.particulars.back().component = "Body/Sides";
    built.reading("r8", "q1", Basis::Stated, "s4", std::string("teal green"));
}

void SmallRegister::addDecisions() {
    built.ruling("k1", "d1", std::string("1'-8\""));
    built.ruling("k2", "d5", std::string("43 5/16"));
    built.reg.rulings.back().tolerance = 0.0625;
    built.reg.rulings.back().reason = "The drawing is the maker's own; the ledger is an inch out.";
    record::Departure wider;
    wider.id = {"x1"};
    wider.on = {"d1"};
    wider.to = std::string("1'-10\"");
    wider.why = record::DepartureWhy::Access;
    wider.reason = "A rescuer must get in.";
    built.reg.departures.push_back(wider);
    record::Slip slip;
    slip.id = {"v1"};
    slip.on = {"d3"};
    slip.value = std::string("2'-0\"");
    slip.by = {"p1"};
    slip.at = "2026-05-02T08:00:00Z";
    built.reg.slips.push_back(slip);
    record::AsBuilt made;
    made.id = {"a1"};
    made.on = {"d1"};
    made.value = std::string("1'-10 1/16\"");
    made.by = {"p2"};
    made.at = "2026-06-11T16:00:00Z";
    built.reg.asBuilt.push_back(made);
    record::Query query;
    query.id = {"y1"};
    query.on = {"d5"};
    query.by = {"p3"};
    query.text = "Why not the ledger?";
    built.reg.queries.push_back(query);
}

app::report::ReportRequest SmallRegister::provenance() {
    return only(app::report::Kind::Provenance);
}

app::report::ReportRequest SmallRegister::only(app::report::Kind kind, const std::string& on) {
    app::report::ReportRequest request;
    request.kind = kind;
    if (!on.empty()) request.filter.on = on;
    request.at = "2026-07-01T12:00:00Z";
    request.registerDigest = std::string(64, '7');
    return request;
}

evidence::Result<void> SmallRegister::tryWrite(const std::filesystem::path& out,
                                               const app::report::ReportRequest& request) {
    app::session::Snapshot snapshot;
    snapshot.reg = built.reg;
    const auto analysis = built.analyse();
    const auto original = [this](const record::File& file) {
        ++asked[file.id.text];
        return folder() / file.path;
    };
    return app::report::writeReport(snapshot, original, analysis, request, out);
}

std::filesystem::path SmallRegister::write(const std::string& extension,
                                           const app::report::ReportRequest& request) {
    const auto out = folder() / ("report-" + std::to_string(++m_written) + extension);
    const auto written = tryWrite(out, request);
    EXPECT_TRUE(written) << written.error().place << ": " << written.error().help;
    return out;
}

}  // namespace tests::report

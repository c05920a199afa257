#include "app/report/sections.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

void writeHowToRead(Writing& writing) {
    Document& document = writing.document;
    document.heading(1, QStringLiteral("How to read this report"), QStringLiteral("how-to-read"));
    document.paragraph(Text(
        "Every size carries a grade: a sign, a letter and a name that say how the size is "
        "held up. The grade is worked out from the chain of evidence, never typed in; a person "
        "may set it lower with a reason, nobody can raise it. A wide but honest size can have "
        "a good grade: how wide it is, ± says."));
    Table grades;
    grades.columns = {{QStringLiteral("Sign"), 0.6, Align::Left},
                      {QStringLiteral("Name"), 1.2, Align::Left},
                      {QStringLiteral("What it means"), 6, Align::Left}};
    for (const Grade grade : {Grade::InHand, Grade::Figured, Grade::TakenOff, Grade::BoxedIn,
                              Grade::CarriedOver, Grade::OurCall, Grade::Blank})
        grades.rows.push_back(
            {{Text().bold(gradeSign(grade)), Text(gradeName(grade)), Text(gradeMeaning(grade))},
             {},
             false});
    document.add(std::move(grades));
    List words;
    words.items = {
        Text()
            .bold(QStringLiteral("± "))
            .add(QStringLiteral(
                "is half the 95 % interval: if the evidence is what it seems, the true size lies "
                "inside "
                "19 times in 20. Only columns headed u hold standard uncertainties (about half as "
                "large).")),
        Text()
            .bold(QStringLiteral("allow ± "))
            .add(QStringLiteral("is a tolerance for the shop: what may be, not what is known.")),
        Text()
            .bold(QStringLiteral("Fractions "))
            .add(QStringLiteral("are no finer than the doubt earns, and say what the rounding did; "
                                "the decimal figure "
                                "beside them is the size as worked out.")),
        Text()
            .bold(QStringLiteral("Misfit "))
            .add(QStringLiteral(
                "is how far a reading lies from what all the evidence together says: first in "
                "units of "
                "size, then in its own spreads. Beyond 3.3 spreads it counts as a conflict.")),
        Text()
            .bold(QStringLiteral("Share of the doubt "))
            .add(QStringLiteral("is how much of the size’s uncertainty comes in by that reading.")),
        Text()
            .bold(QStringLiteral("Checked by others "))
            .add(QStringLiteral("says how well the other evidence controls a reading, from 0 % "
                                "(nothing else speaks of "
                                "it) to 100 %.")),
        Text()
            .bold(QStringLiteral("Echo "))
            .add(QStringLiteral("is a reading whose source goes back to the same origin as "
                                "another: it is shown, and "
                                "not counted twice.")),
        Text()
            .bold(QStringLiteral("Origin "))
            .add(QStringLiteral("is a family of sources that descend from each other. Ten copies "
                                "of one drawing are one "
                                "witness.")),
        Text()
            .bold(QStringLiteral("Scale "))
            .add(QStringLiteral(
                "(J) turns the pixels of a page into inches. On the pictures, blue is what was "
                "measured, dashed ink is the known length that set the scale.")),
        Text()
            .bold(QStringLiteral("In a thread "))
            .add(QStringLiteral(
                "sources stand left, the size right; the wider a band, the larger its share of the "
                "doubt."))};
    document.add(std::move(words));
}

}  // namespace app::report

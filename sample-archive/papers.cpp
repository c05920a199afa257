#include "sample-archive/papers.h"

#include <fmt/format.h>
#include <hpdf.h>

#include <memory>
#include <stdexcept>
#include <string>
#include <type_traits>
#include <vector>

namespace sample {

namespace {

void onError(HPDF_STATUS code, HPDF_STATUS detail, void* /*user*/) {
    throw std::runtime_error(fmt::format("PDF library refused: {:#x}, {:#x}", code, detail));
}

/// One paper in the making: pages of plain text in the standard fonts, which need no font file.
class Paper {
  public:
    Paper(const std::string& title, int year)
        : m_document(HPDF_New(&onError, nullptr), &HPDF_Free) {
        HPDF_Date date{};
        date.year = year;
        date.month = 3;
        date.day = 2;
        date.ind = 'Z';
        HPDF_SetInfoDateAttr(m_document.get(), HPDF_INFO_CREATION_DATE, date);
        HPDF_SetInfoAttr(m_document.get(), HPDF_INFO_TITLE, title.c_str());
        HPDF_SetCompressionMode(m_document.get(), HPDF_COMP_TEXT);
    }

    void page(double width, double height, double red, double green, double blue) {
        m_page = HPDF_AddPage(m_document.get());
        m_height = height;
        HPDF_Page_SetWidth(m_page, real(width));
        HPDF_Page_SetHeight(m_page, real(height));
        HPDF_Page_SetRGBFill(m_page, real(red), real(green), real(blue));
        HPDF_Page_Rectangle(m_page, 0, 0, real(width), real(height));
        HPDF_Page_Fill(m_page);
        HPDF_Page_SetRGBFill(m_page, real(0.10), real(0.09), real(0.13));
    }
    void rule(double x1, double y1, double x2, double y2, double width, bool red = false) {
        HPDF_Page_SetLineWidth(m_page, real(width));
        HPDF_Page_SetRGBStroke(m_page, real(red ? 0.65 : 0.35), real(red ? 0.2 : 0.35),
                               real(red ? 0.2 : 0.45));
        HPDF_Page_MoveTo(m_page, real(x1), real(m_height - y1));
        HPDF_Page_LineTo(m_page, real(x2), real(m_height - y2));
        HPDF_Page_Stroke(m_page);
    }
    /// Text with its left end at x points from the left and y points from the top.
    void text(double x, double y, const char* font, double size, const std::string& words) {
        HPDF_Page_BeginText(m_page);
        HPDF_Page_SetFontAndSize(m_page, HPDF_GetFont(m_document.get(), font, nullptr), real(size));
        HPDF_Page_TextOut(m_page, real(x), real(m_height - y), words.c_str());
        HPDF_Page_EndText(m_page);
    }
    void lines(double x, double y, double step, const char* font, double size,
               const std::vector<std::string>& words) {
        for (const std::string& line : words) {
            text(x, y, font, size, line);
            y += step;
        }
    }
    void save(const std::filesystem::path& path) {
        HPDF_SaveToFile(m_document.get(), path.c_str());
    }

  private:
    static HPDF_REAL real(double value) { return static_cast<HPDF_REAL>(value); }

    std::unique_ptr<std::remove_pointer_t<HPDF_Doc>, decltype(&HPDF_Free)> m_document;
    HPDF_Page m_page = nullptr;
    double m_height = 0;
};

struct LedgerLine {
    const char* date;
    const char* words;
    const char* figure;
};

void ledgerPage(Paper& paper, const std::string& heading, const std::vector<LedgerLine>& entries) {
    paper.page(595, 780, 0.955, 0.93, 0.86);
    paper.text(70, 52, "Times-BoldItalic", 17, heading);
    paper.rule(48, 66, 560, 66, 1.4, true);
    for (double y = 92; y < 740; y += 22) paper.rule(48, y + 4, 560, y + 4, 0.4);
    for (const double x : {122.0, 470.0}) paper.rule(x, 66, x, 744, 0.8, true);
    double y = 92;
    for (const LedgerLine& entry : entries) {
        paper.text(54, y, "Times-Italic", 12, entry.date);
        paper.text(130, y, "Times-Italic", 13, entry.words);
        paper.text(478, y, "Times-Italic", 13, entry.figure);
        y += 22;
    }
}

}  // namespace

void writeLedger(const std::filesystem::path& path) {
    Paper paper("Corran Shops, works ledger 1910-1912", 2025);
    ledgerPage(paper, "Corran Shops   -   Account No. 4 Motor Car   -   folio 31",
               {{"1910 Nov 14", "Oak, quarter sawn, for ten hoops sided 1 3/4 in", "38 ft cube"},
                {"      Nov 14", "Red pine matchboard, 5/8 in finished, 3 in face", "520 ft run"},
                {"      Nov 29", "Steel channel 6 in x 2 1/2 in, two lengths 14 ft 3 in", "2"},
                {"1911 Jan  9", "Ash for rails and sash", "6 ft cube"},
                {"      Jan 20", "Wheels and axles, two pair, about 2 ft on the tread", "2 pr"},
                {"      Jan 20", "   weight of the two pair with boxes", "11 cwt 0 qr 8"},
                {"      Feb  6", "Engine, 12 h.p., with clutch and gear case", "6 cwt 2 qr 0"},
                {"      Feb 21", "Door, teak, 1 ft 9 in", "1"},
                {"      Feb 27", "Canvas, No. 4, for roof, with white lead", "9 yd"},
                {"      Mar  3", "Enamel name plate, 18 in x 4 1/2 in, T. Orrin", "1"},
                {"      Mar 13", "Window sash, ash, 15 7/8 in x 22 3/8 in", "6"},
                {"      Mar 20", "Petrol tank, copper, to hold 8 gallons", "1"}});
    ledgerPage(paper, "Corran Shops   -   Account No. 4 Motor Car   -   folio 32",
               {{"1911 Apr  3", "Seat cushions, green leather cloth, the long one 6 ft 7 in", "3"},
                {"      Apr 10", "Paint: cream upper and lower, teal green bands", "-"},
                {"      Apr 24", "Buffers, spring, 10 in heads", "4"},
                {"      May  8", "Hand brake, wheel and screw, blocks to leading pair", "1 set"},
                {"      May 15", "Car weighed on Corran bridge, tank dry, no tools", "46 cwt 1 qr"},
                {"      May 16", "Car to traffic", "-"},
                {"      May 22", "Lamps, oil, 7 in glass, one each end", "2"}});
    paper.save(path);
}

void writeNewspaper(const std::filesystem::path& path) {
    Paper paper("The Corran Courant, 20 May 1911, page 3", 2024);
    paper.page(420, 620, 0.93, 0.90, 0.82);
    paper.text(64, 50, "Times-Bold", 25, "THE CORRAN COURANT");
    paper.text(120, 68, "Times-Roman", 9, "Saturday, May 20th, 1911.   Price One Penny.");
    paper.rule(30, 76, 390, 76, 1.0);
    paper.text(92, 104, "Times-Bold", 14, "THE RAILWAY'S NEW MOTOR CAR.");
    paper.lines(60, 128, 15, "Times-Roman", 11,
                {"On Tuesday last the Light Railway put into use the petrol car which",
                 "Mr. Pendry and his men have built at the Corran shops during the",
                 "winter. The car, which is to carry the engineer and the permanent-way",
                 "gang on their rounds, is a handsome vehicle some sixteen feet over all,",
                 "painted cream with bands of a fine blue-green, and bears the name Teal.",
                 "It seats eight persons upon cushions, and has six large windows a side,",
                 "which may be let down in warm weather.", "",
                 "The engine, of twelve horse-power, drives the hinder axle by a chain.",
                 "The car ran to Upper Corran, a distance of nine miles, in twenty-six",
                 "minutes, with five gentlemen aboard, and was stopped by its hand brake",
                 "in forty yards upon the level."});
    paper.rule(150, 330, 270, 330, 0.6);
    paper.text(84, 356, "Times-Bold", 12, "WESLEYAN SUNDAY SCHOOL OUTING.");
    paper.lines(60, 376, 15, "Times-Roman", 11,
                {"The scholars will meet at the station on Saturday, June 3rd, at nine",
                 "o'clock. Tea will be taken at the Vicar's meadow."});
    paper.save(path);
}

void writeCatalogue(const std::filesystem::path& path) {
    Paper paper("T. Orrin & Sons, enamelled plates, list of 1909", 2025);
    paper.page(420, 560, 0.96, 0.95, 0.91);
    paper.text(92, 60, "Times-Bold", 20, "T. ORRIN & SONS");
    paper.text(70, 80, "Times-Italic", 12, "Makers of Enamelled Iron Plates - List of 1909");
    paper.rule(40, 92, 380, 92, 0.8);
    paper.lines(56, 122, 18, "Courier", 10.5,
                {"No.  TRADE SIZE           LIMITS OF MAKING", "",
                 "11   12 in x 3 in         1/16 in either way",
                 "14   15 in x 4 in         1/16 in either way",
                 "17   18 in x 4 1/2 in     1/16 in either way",
                 "21   24 in x 6 in         3/32 in either way", "",
                 "All plates of 18 gauge iron, flanged, three coats fired.",
                 "Holes for No. 10 screws, one inch from each corner."});
    paper.save(path);
}

void writeLinePlan(const std::filesystem::path& path) {
    Paper paper("Corran Valley Light Railway, deposited plan, 1898", 2025);
    paper.page(842, 420, 0.965, 0.955, 0.90);
    paper.text(210, 50, "Times-Bold", 20, "CORRAN VALLEY LIGHT RAILWAY");
    paper.text(268, 72, "Times-Italic", 13, "Plan and section deposited November 1898");
    paper.rule(60, 230, 250, 214, 2.2);
    paper.rule(250, 214, 470, 248, 2.2);
    paper.rule(470, 248, 790, 190, 2.2);
    for (double x = 70; x < 780; x += 24) paper.rule(x, 210, x + 3, 250, 0.6);
    paper.text(50, 270, "Times-Italic", 11, "Corran");
    paper.text(430, 285, "Times-Italic", 11, "Mill Halt");
    paper.text(730, 226, "Times-Italic", 11, "Upper Corran");
    paper.lines(60, 330, 18, "Times-Roman", 12,
                {"Gauge of railway: 3 feet between the rails.",
                 "Length 9 miles 1 furlong. Sharpest curve 3 chains. Steepest gradient 1 in 40."});
    paper.save(path);
}

void writeHandbook(const std::filesystem::path& path) {
    Paper paper("Timber merchant's pocket table, 1908", 2025);
    paper.page(360, 500, 0.955, 0.945, 0.89);
    paper.text(72, 56, "Times-Bold", 15, "WEIGHTS OF TIMBER, SEASONED");
    paper.rule(40, 68, 320, 68, 0.8);
    paper.lines(
        56, 96, 20, "Courier", 11,
        {"            lb per cubic foot", "", "Ash                  43", "Oak, English         47",
         "Pine, red            34", "Pine, yellow         27", "Teak                 44", "",
         "Single boards may differ", "by a tenth either way."});
    paper.save(path);
}

}  // namespace sample

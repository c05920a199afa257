#include "sample-archive/sizes.h"

#include "sample-archive/lettering.h"

#include <fmt/format.h>

#include <cassert>
#include <unordered_map>

namespace sample {

namespace {

class List {
  public:
    void component(std::string path) { m_component = std::move(path); }
    Size& length(std::string id, std::string name, double value, double tolerance = 0) {
        return add(std::move(id), std::move(name), "length", "in", value, tolerance);
    }
    Size& add(std::string id, std::string name, std::string quantity, std::string unit,
              double value, double tolerance) {
        m_sizes.push_back({std::move(id), std::move(name), m_component, std::move(quantity),
                           std::move(unit), tolerance, false, value});
        return m_sizes.back();
    }
    std::vector<Size> m_sizes;

  private:
    std::string m_component;
};

void addWhole(List& list, const Railcar& car) {
    list.component("Car");
    list.length("d-body-length", "Length over body", car.bodyLength, 0.5);
    list.length("d-over-headstocks", "Length over headstocks", car.lengthOverHeadstocks());
    list.length("d-over-buffers", "Length over buffers", car.lengthOverBuffers());
    list.length("d-body-width", "Width over sheathing", car.bodyWidth).critical = true;
    list.length("d-total-height", "Height from rail to crown", car.totalHeight(), 0.25).critical =
        true;
    list.component("Running gear");
    list.length("d-wheelbase", "Wheelbase", car.wheelbase, 0.0625).critical = true;
    list.length("d-front-overhang", "Leading axle to front of body", car.frontOverhang);
    list.length("d-rear-overhang", "Trailing axle to rear of body", car.rearOverhang());
    list.length("d-gauge", "Gauge of track", car.gauge);
    list.component("Running gear/Wheels");
    list.add("d-wheel-diameter", "Wheel diameter on tread", "diameter", "in", car.wheelDiameter,
             0.0625)
        .critical = true;
    list.length("d-tyre-width", "Width of tyre", car.tyreWidth).critical = true;
    list.length("d-flange-depth", "Depth of flange", car.flangeDepth).critical = true;
    list.add("d-axle-diameter", "Axle diameter at journal", "diameter", "in", 3.0, 0.005).critical =
        true;
    list.add("d-wheel-circumference", "Distance run in one turn of the wheel", "length", "in",
             3.14159265358979 * car.wheelDiameter, 0);
}

void addBody(List& list, const Railcar& car) {
    list.component("Body/Bays");
    for (int bay = 1; bay <= 9; ++bay) {
        list.length(fmt::format("d-bay-{}", bay),
                    fmt::format("Bay {}, hoop {} to hoop {}", bay, bay, bay + 1), car.bay(bay),
                    0.5);
    }
    list.length("d-hoop-span", "Hoop 1 to hoop 10, centres",
                car.hoops[9].station - car.hoops[0].station);
    list.length("d-front-to-hoop", "Front of body to centre of hoop 1", car.hoops[0].station);
    list.length("d-rear-to-hoop", "Centre of hoop 10 to rear of body",
                car.bodyLength - car.hoops[9].station);
    list.length("d-front-to-window", "Front of body to first window", car.windows[0].from);
    list.length("d-front-to-door", "Front of body to door", car.doorFrom);
    list.component("Body/Sides");
    list.length("d-siding-bottom", "Rail to foot of side", car.sidingBottom);
    list.length("d-sill-depth", "Depth of sill band", car.sillTop - car.sidingBottom);
    list.length("d-lower-panel", "Height of lower panel", car.waistBottom - car.sillTop);
    list.length("d-waist-depth", "Depth of waist rail", car.waistTop - car.waistBottom);
    list.length("d-waist-to-window", "Waist rail to window", car.windowBottom - car.waistTop);
    list.length("d-window-height", "Height of window openings", car.windowTop - car.windowBottom,
                0.25);
    list.length("d-window-to-cantrail", "Window to cantrail", car.cantrailBottom - car.windowTop);
    list.length("d-cantrail-depth", "Depth of cantrail", car.cantrailTop - car.cantrailBottom);
    list.length("d-side-height", "Height of side, foot to top of cantrail",
                car.cantrailTop - car.sidingBottom);
    list.length("d-cantrail-height", "Rail to top of cantrail", car.cantrailTop);
    list.length("d-sheathing", "Thickness of matchboard", car.sheathing);
    list.length("d-board-face", "Face of one matchboard", 3.0);
    list.component("Body/Windows");
    for (std::size_t i = 0; i < car.windows.size(); ++i) {
        list.length(fmt::format("d-window-{}-width", i + 1),
                    fmt::format("Width of window {}", i + 1), car.windows[i].width, 0.25);
    }
    for (const std::size_t i : {0U, 1U, 2U, 4U}) {
        list.length(fmt::format("d-pillar-{}-{}", i + 1, i + 2),
                    fmt::format("Between windows {} and {}", i + 1, i + 2),
                    car.windows[i + 1].from - car.windows[i].from - car.windows[i].width);
    }
    list.length("d-louvre-width", "Width of luggage louvre", car.louvreWidth);
    list.length("d-end-window-width", "Width of end windows", 18.0);
    list.component("Body/Windows/Sash");
    list.length("d-sash-width", "Width of sash", 15.875, 0.0625);
    list.length("d-sash-height", "Height of sash", 22.375);
    list.length("d-sash-thickness", "Thickness of sash", 1.375);
    list.length("d-sash-stile", "Width of stile", 1.75);
    list.length("d-sash-clearance", "Play of sash in its opening", 0.125);
    list.component("Body/Door");
    list.length("d-door-width", "Width of door", car.doorWidth, 0.25);
    list.length("d-door-height", "Height of door", car.doorTop - car.doorBottom);
    list.length("d-door-panel-height", "Height of sunk door panel", 18.0);
    list.length("d-handle-height", "Floor to door handle", 22.0);
}

void addHoops(List& list, const Railcar& car) {
    for (int number = 1; number <= kHoops; ++number) {
        const Hoop& hoop = car.hoops.at(static_cast<std::size_t>(number - 1));
        list.component(fmt::format("Body/Roof/Hoop {}", number));
        list.length(fmt::format("d-hoop-{}-rise", number),
                    fmt::format("Hoop {}, rise of crown over cantrail", number), hoop.rise);
        list.length(fmt::format("d-hoop-{}-crown", number),
                    fmt::format("Hoop {}, depth at crown", number), hoop.mouldedCrown);
        list.length(fmt::format("d-hoop-{}-knee", number),
                    fmt::format("Hoop {}, depth at knee", number), hoop.mouldedKnee);
        list.add(fmt::format("d-hoop-{}-radius", number),
                 fmt::format("Hoop {}, inside radius of knee", number), "radius", "in",
                 hoop.kneeRadius, 0);
    }
    list.component("Body/Roof");
    list.length("d-hoop-sided", "Hoops 2 to 9, sided", car.hoops[1].sided);
    list.length("d-end-hoop-sided", "Hoops 1 and 10, sided", car.hoops[0].sided);
    list.length("d-roof-batten", "Depth of canvas batten at the eaves", car.roofBatten);
    list.length("d-roof-overhang", "Overhang of roof at the ends", car.roofOverhang);
    list.component("Body/Roof/Bracket");
    list.length("d-bracket-length", "Length of roof bracket", 9.0);
    list.length("d-bracket-height", "Height of roof bracket", 6.5);
    list.length("d-bracket-holes", "Hole centres of roof bracket", 4.25);
}

void addUnderframe(List& list, const Railcar& car) {
    list.component("Underframe");
    list.length("d-channel-depth", "Depth of channel", car.channelDepth).critical = true;
    list.length("d-channel-flange", "Flange of channel", 2.5).critical = true;
    list.length("d-channel-spacing", "Over backs of channels", car.channelSpacing);
    list.length("d-channel-top", "Rail to top of channel", car.channelTop);
    list.length("d-channel-length", "Length of channel", 170.5);
    list.component("Underframe/Headstocks");
    list.length("d-headstock-thickness", "Thickness of headstock", car.headstockProjection);
    list.length("d-headstock-depth", "Depth of headstock", 8.0);
    list.length("d-headstock-length", "Length of headstock", 54.0);
    list.component("Underframe/Buffers");
    list.length("d-buffer-projection", "Buffer beyond headstock", car.bufferProjection);
    list.length("d-buffer-height", "Rail to buffer centre", car.bufferHeight).critical = true;
    list.length("d-buffer-centres", "Buffer centres", 44.0);
    list.add("d-buffer-head", "Diameter of buffer head", "diameter", "in", 10.0, 0);
    list.component("Running gear/Axleboxes");
    list.length("d-axlebox-height", "Height of axlebox", 7.25);
    list.length("d-axlebox-width", "Width of axlebox", 6.125);
    list.add("d-axlebox-bore", "Bore of axlebox", "diameter", "in", 3.0, 0.005).critical = true;
    list.length("d-axlebox-lugs", "Lug centres of axlebox", 8.5);
    list.length("d-axlebox-pattern", "Length of axlebox pattern", 7.3255);
    list.component("Steps");
    list.length("d-step-length", "Length of step board", car.stepLength);
    list.length("d-step-height", "Rail to top of step", car.stepTop);
    list.length("d-step-thickness", "Thickness of step board", car.stepThickness);
    list.component("Fittings/Name plate");
    list.length("d-plate-length", "Length of name plate", car.plateLength);
    list.length("d-plate-height", "Height of name plate", car.plateHeight);
    list.length("d-plate-stand-off", "Plate outside body side", car.plateStandOff);
}

void addInside(List& list, const Railcar& car) {
    list.component("Inside");
    list.length("d-floor-height", "Rail to floor", car.floorTop);
    list.length("d-headroom-middle", "Headroom at the middle, under hoop 9",
                car.crownHeight(9) - car.hoops[8].mouldedCrown - car.floorTop);
    list.length("d-headroom-side", "Headroom at the sides", car.cantrailBottom - car.floorTop);
    list.component("Inside/Seats");
    list.length("d-seat-height", "Floor to seat", 17.0);
    list.length("d-seat-depth", "Depth of seat", 16.0);
    list.length("d-seat-length", "Length of long seat", 80.0);
    list.component("Engine");
    list.length("d-engine-bed-length", "Length of engine bed", 30.0);
    list.length("d-engine-bed-width", "Width of engine bed", 18.0);
    list.component("Engine/Tank");
    list.add("d-tank-volume", "Contents of petrol tank", "volume", "in3", 2217.0, 0);
    list.add("d-tank-diameter", "Diameter of petrol tank", "diameter", "in", 11.0, 0);
    list.length("d-tank-length", "Length of petrol tank", 23.33, 0.5);
    list.component("Brake");
    list.add("d-brake-wheel", "Diameter of brake hand wheel", "diameter", "in", 13.0, 0);
    list.length("d-brake-lever", "Length of brake lever", 18.0, 0.5).critical = true;
    list.length("d-brake-block", "Length of brake block", 9.0).critical = true;
    list.component("Fittings/Lamps");
    list.add("d-lamp-glass", "Diameter of lamp glass", "diameter", "in", car.lampDiameter, 0);
    list.length("d-lamp-height", "Rail to lamp centre", 68.0);
    list.component("Finish/Lettering");
    list.length("d-letter-height", "Height of letters on the side", 5.0);
    list.length("d-word-length", "Length of the word CORRAN", wordLength("CORRAN", 5.0));
    list.component("Masses");
    const auto mass = [&list](const char* id, const char* name, double pounds) {
        list.add(id, name, "mass", "lb", pounds, 0);
    };
    mass("d-mass-tare", "Tare of the car", 5180);
    mass("d-mass-body", "Body without roof", 1620);
    mass("d-mass-underframe", "Underframe with buffers", 900);
    mass("d-mass-wheelsets", "Wheelsets with boxes", 1240);
    mass("d-mass-engine", "Engine, clutch and gear case", 728);
    mass("d-mass-roof", "Roof", 180);
    mass("d-mass-seats", "Seats and fittings", 360);
    mass("d-mass-brake", "Brake gear", 152);
    list.component("Running gear/Drive");
    list.add("d-sprocket-ratio", "Axle sprocket to engine sprocket", "ratio", "1", 2.4, 0);
    list.length("d-chain-centres", "Chain centres", 31.0);
    list.add("d-driven-sprocket", "Diameter of axle sprocket", "diameter", "in", 14.4, 0);
    list.add("d-driving-sprocket", "Diameter of engine sprocket", "diameter", "in", 6.0, 0);
}

std::vector<Size> made(const Railcar& car) {
    List list;
    addWhole(list, car);
    addBody(list, car);
    addHoops(list, car);
    addUnderframe(list, car);
    addInside(list, car);
    return std::move(list.m_sizes);
}

}  // namespace

std::vector<Size> sizesOf(const Railcar& car) {
    return made(car);
}

std::string codeOf(const std::string& id) {
    static const std::unordered_map<std::string, std::string> kCodes = [] {
        std::unordered_map<std::string, std::string> codes;
        const std::vector<Size> sizes = sizesOf(designed());
        for (std::size_t i = 0; i < sizes.size(); ++i) {
            codes.emplace(sizes[i].id, fmt::format("D{}", i + 1));
        }
        return codes;
    }();
    const auto found = kCodes.find(id);
    assert(found != kCodes.end() && "formulas of the sample name dimensions of the sample");
    return found == kCodes.end() ? id : found->second;
}

std::string withCodes(const std::string& formula) {
    std::string result;
    std::size_t at = 0;
    while (at < formula.size()) {
        const std::size_t open = formula.find('{', at);
        if (open == std::string::npos) return result + formula.substr(at);
        const std::size_t close = formula.find('}', open);
        result += formula.substr(at, open - at);
        result += codeOf(formula.substr(open + 1, close - open - 1));
        at = close + 1;
    }
    return result;
}

std::map<std::string, double> trueValues(const Railcar& car) {
    std::map<std::string, double> values;
    for (const Size& size : sizesOf(car)) values.emplace(size.id, size.value);
    return values;
}

}  // namespace sample

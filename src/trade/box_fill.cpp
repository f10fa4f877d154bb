#include "trade/box_fill.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace trade {
namespace {

using base::number_text;

/// Adds up allowances and keeps the working.
class Count {
public:
    Count(const Table& volumes, Finding& finding) : volumes_{&volumes}, finding_{&finding} {}

    void add(double allowances, const std::string& size, const std::string& what) {
        const double each = volume_of(size);
        total_ += allowances * each;
        finding_->steps.push_back(what + ": " + number_text(allowances) + " x " + number_text(each) + " (" + size +
                                  " AWG) = " + number_text(allowances * each) + " in3");
    }

    double volume_of(const std::string& size) {
        const auto found = look_up(*volumes_, {{"size", size}}, "volume");
        if (found) return found->value;
        const std::string missing = "volume of a conductor of size '" + size + "'";
        auto& unknown = finding_->unknown;
        if (std::find(unknown.begin(), unknown.end(), missing) == unknown.end()) unknown.push_back(missing);
        return 0.0;
    }

    [[nodiscard]] double total() const { return total_; }

private:
    const Table* volumes_;
    Finding* finding_;
    double total_ = 0.0;
};

/// The size with the greatest volume among all conductors in the box, grounds included.
std::string largest_size(const BoxContents& found, Count& count) {
    std::string largest;
    double most = -1.0;
    const auto consider = [&](const BoxContents::Conductors& c) {
        if (c.count > 0 && count.volume_of(c.size) > most) {
            most = count.volume_of(c.size);
            largest = c.size;
        }
    };
    for (const auto& c : found.conductors) consider(c);
    if (found.grounds) consider(*found.grounds);
    return largest;
}

double ground_allowances(int grounds, Edition edition) {
    if (grounds <= 0) return 0.0;
    return edition < Edition::e2020 ? 1.0 : 1.0 + 0.25 * std::max(0, grounds - 4);
}

void add_parts_of_the_box(const BoxContents& found, Finding& finding, Count& count) {
    if (!found.clamps && found.fittings == 0) return;
    const std::string largest = largest_size(found, count);
    if (largest.empty()) {
        finding.unknown.emplace_back("conductors");
        return;
    }
    if (found.clamps) count.add(1, largest, "clamps");
    if (found.fittings > 0) count.add(found.fittings, largest, "support fittings");
}

}  // namespace

Finding box_fill(const BoxContents& found, Edition edition, const Table& volumes) {
    Finding finding;
    finding.articles = {"314.16(B)"};
    Count count{volumes, finding};
    for (const auto& c : found.conductors) count.add(c.count, c.size, "conductors");
    add_parts_of_the_box(found, finding, count);
    for (const auto& d : found.devices) count.add(2.0 * d.gangs * d.count, d.size, "devices");
    if (found.grounds && found.grounds->count > 0)
        count.add(ground_allowances(found.grounds->count, edition), found.grounds->size, "equipment grounds");
    if (finding.unknown.empty()) finding.answer = base::Quantity{count.total(), base::Unit::in3};
    return finding;
}

}  // namespace trade

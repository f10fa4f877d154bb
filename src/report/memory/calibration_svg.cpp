#include "report/chart/calibration_plot.hpp"
#include "report/memory/tuning_text.hpp"

namespace report {
namespace {

std::vector<chart::CalibrationBin> bins(const std::vector<memory::Calibrated>& rows) {
    std::vector<chart::CalibrationBin> bins;
    for (const auto& row : rows) bins.push_back({row.mean_chance, row.share_right, row.low, row.high, row.answers});
    return bins;
}

}  // namespace

std::string calibration_svg(const memory::Assessment& assessment) {
    const chart::Words words{
        "calibration", "Share right against chance foretold",
        "Answers held back from the fit, in groups of about equal size. A forecaster that is right "
        "as often as it says lies on the line."};
    return chart::calibration_plot(words, {{"fitted parameters", bins(assessment.calibration)},
                                           {"shipped parameters", bins(assessment.as_shipped)}});
}

}  // namespace report

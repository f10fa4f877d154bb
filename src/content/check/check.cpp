#include "content/check/check.hpp"

#include <utility>

namespace content {

void note(base::Faults& faults, const Place& place, std::string what, std::string mend) {
    faults.push_back({place.file, place.pointer, place.line, std::move(what), std::move(mend), false});
}

void check_jurisdictions(const Contents& contents, base::Faults& faults) {
    for (const auto& one : contents.jurisdictions) {
        if (one.adoptions.empty())
            note(faults, one.place, "'" + one.id + "' has adopted no edition", "add one to \"adoptions\"");
        for (std::size_t i = 1; i < one.adoptions.size(); ++i)
            if (one.adoptions[i].from <= one.adoptions[i - 1].from)
                note(faults, one.place, "the adoptions of '" + one.id + "' are not in order of time",
                     "put the earliest first");
    }
}

base::Faults check_contents(const Contents& contents) {
    base::Faults faults = contents.faults;
    check_points(contents, faults);
    check_questions(contents, faults);
    check_scenarios(contents, faults);
    check_figures(contents, faults);
    check_likeness(contents, faults);
    check_jurisdictions(contents, faults);
    check_outlines(contents, faults);
    check_jobs(contents, faults);
    check_readings(contents, faults);
    // Tables, rules and amendments, each compiled for every edition.
    const auto data = TradeData::make(contents);
    if (!data) {
        faults.insert(faults.end(), data.error().begin(), data.error().end());
        return faults;
    }
    check_computed(contents, *data, faults);
    check_told(contents, *data, faults);
    check_changes(contents, *data, faults);
    return faults;
}

}  // namespace content

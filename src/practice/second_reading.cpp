#include "practice/second_reading.hpp"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "content/compose.hpp"

namespace practice {
namespace {

/// One order of options for all readers, so that their letters can be compared.
constexpr base::Seed kSeed = 1;
/// In place of a content that has been read: the difference is not settled.
constexpr const char* kOpen = "open";

content::Reading& entry_for(std::vector<content::Reading>& readings, const content::ToRead& what) {
    const auto found = std::find_if(readings.begin(), readings.end(), [&](const content::Reading& one) {
        return one.question == what.id && one.edition == what.edition;
    });
    if (found != readings.end()) return *found;
    content::Reading fresh;
    fresh.question = what.id;
    fresh.edition = what.edition;
    readings.push_back(std::move(fresh));
    return readings.back();
}

class Calls {
public:
    explicit Calls(const content::Library& library) : library_{&library} {}

    /// The ask of a call for an edition; null when its facts cannot be drawn.
    const content::Ask* ask(const content::ToRead& what) {
        const auto [at, fresh] = posed_.try_emplace({what.scenario->id, what.edition});
        if (fresh) {
            const auto& all = library_->index().scenarios;
            const auto entry =
                std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.id == what.scenario->id; });
            if (entry != all.end()) at->second = content::compose_scenario(*library_, *entry, what.edition, kSeed);
        }
        const auto found = std::find_if(at->second.begin(), at->second.end(),
                                        [&](const content::Ask& one) { return one.id.text == what.id; });
        return found == at->second.end() ? nullptr : &*found;
    }

private:
    const content::Library* library_;
    std::map<std::pair<std::string, trade::Edition>, std::vector<content::Ask>> posed_;
};

}  // namespace

std::vector<PosedReading> pose_for_reading(const std::vector<content::ToRead>& questions,
                                           const content::Library& library) {
    std::vector<PosedReading> posed;
    Calls calls{library};
    for (const auto& what : questions) {
        if (what.scenario != nullptr) {
            if (const auto* ask = calls.ask(what)) posed.push_back({what, *ask});
        } else if (const auto* entry = library.find(what.point->id)) {
            posed.push_back({what, content::compose(library, *entry, *what.question, what.edition, kSeed)});
        }
    }
    return posed;
}

Verdict judge(const PosedReading& posed, const std::string& given, const std::string& remark) {
    Verdict verdict{&posed, given, false, remark};
    const auto marked = mark(posed.ask, given);
    if (marked)
        verdict.agrees = marked->mark >= 1.0;
    else
        verdict.note = marked.error() + (remark.empty() ? "" : "; " + remark);
    return verdict;
}

void record(std::vector<content::Reading>& readings, const std::vector<Verdict>& verdicts, const std::string& reader) {
    for (const auto& verdict : verdicts) {
        auto& entry = entry_for(readings, verdict.posed->what);
        entry.reader = reader;
        entry.content = verdict.agrees ? verdict.posed->what.content : kOpen;
        if (!verdict.agrees) entry.agreed_first = false;
    }
    std::sort(readings.begin(), readings.end(), [](const content::Reading& a, const content::Reading& b) {
        return std::tie(a.question, a.edition) < std::tie(b.question, b.edition);
    });
}

bool uphold(std::vector<content::Reading>& readings, const content::ToRead& question, const std::string& because) {
    const auto found = std::find_if(readings.begin(), readings.end(), [&](const content::Reading& one) {
        return one.question == question.id && one.edition == question.edition;
    });
    if (found == readings.end()) return false;
    found->content = question.content;
    found->settled = because;
    return true;
}

}  // namespace practice

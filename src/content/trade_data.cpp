#include "content/trade_data.hpp"

#include <algorithm>

#include "content/read/read.hpp"
#include "content/read/read_rules.hpp"

namespace content {
namespace {

/// The rules that amendments bring: each of them, since on some day one may be in force that a later one now hides.
std::vector<trade::Rule> brought_by(const std::vector<trade::Amendment>& amendments) {
    std::vector<trade::Rule> brought;
    for (const auto& amendment : amendments)
        if (amendment.with) brought.push_back(*amendment.with);
    return brought;
}

/// Every edition compiles, with and without each jurisdiction's amendments.
base::Faults faults_in_rules(const Contents& contents) {
    base::Faults faults;
    const auto add = [&](const base::Faults& more) {
        for (const auto& fault : more)
            if (std::find(faults.begin(), faults.end(), fault) == faults.end()) faults.push_back(fault);
    };
    const auto compile = [&](std::vector<trade::Rule> rules, trade::Edition edition) {
        const auto book = trade::make_book(contents.vocabulary, std::move(rules), edition, "");
        if (!book) add(book.error());
    };
    for (const auto edition : trade::kEditions) {
        compile(contents.rules, edition);
        for (const auto& place : contents.jurisdictions) {
            compile(brought_by(place.amendments), edition);
            const auto rules = trade::amended(contents.rules, place.amendments, edition, "");
            if (rules)
                compile(*rules, edition);
            else
                add(rules.error());
        }
    }
    return faults;
}

}  // namespace

base::Checked<TradeData> TradeData::make(const Contents& contents) {
    auto tables = trade::typed_tables(contents.tables);
    base::Faults faults = faults_in_rules(contents);
    if (!tables) faults.insert(faults.end(), tables.error().begin(), tables.error().end());
    if (!faults.empty()) return tl::unexpected<base::Faults>{std::move(faults)};
    TradeData data;
    data.tables_ = std::move(*tables);
    data.vocabulary_ = contents.vocabulary;
    data.rules_ = contents.rules;
    data.raw_tables_ = contents.tables;
    data.jurisdictions_ = contents.jurisdictions;
    return data;
}

const Jurisdiction* TradeData::jurisdiction(const std::string& id) const {
    const auto found =
        std::find_if(jurisdictions_.begin(), jurisdictions_.end(), [&](const Jurisdiction& j) { return j.id == id; });
    return found == jurisdictions_.end() ? nullptr : &*found;
}

std::vector<trade::Rule> TradeData::rules_for(trade::Edition edition, const std::string& jurisdiction_id,
                                              const std::string& day) const {
    const auto* place = jurisdiction(jurisdiction_id);
    if (place == nullptr || place->amendments.empty()) return rules_;
    return trade::amended_as_far_as_fits(rules_, place->amendments, edition, day);
}

const trade::RuleBook& TradeData::book(trade::Edition edition, const std::string& jurisdiction,
                                       const std::string& day) const {
    const std::string key = trade::to_text(edition) + '|' + jurisdiction + '|' + day;
    const auto held = books_.find(key);
    if (held != books_.end()) return held->second;
    auto book = trade::make_book(vocabulary_, rules_for(edition, jurisdiction, day), edition, day);
    return books_.emplace(key, book ? std::move(*book) : trade::RuleBook{}).first->second;
}

base::Checked<TradeData> load_trade_data(const std::vector<SourceFile>& files) {
    const Contents contents = load_contents(files, {kTableFormat, kFactsFormat, kRulesFormat, kJurisdictionFormat});
    if (base::any_errors(contents.faults)) return tl::unexpected<base::Faults>{contents.faults};
    return TradeData::make(contents);
}

base::Checked<TradeData> load_trade_data(const std::vector<std::string>& roots) {
    const auto files = find_sources(roots);
    if (!files) return tl::unexpected<base::Faults>{files.error()};
    return load_trade_data(*files);
}

}  // namespace content

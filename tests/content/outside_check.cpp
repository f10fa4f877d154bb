#include "content/outside_check.hpp"

namespace outside {

const content::TradeData& data() {
    static const auto data = content::load_trade_data(std::vector<std::string>{PROJECT_FOLDER});
    return data.value();
}

std::string typed(const json& value) {
    return value.is_string() ? value.get<std::string>() : base::number_text(value.get<double>());
}

trade::Finding worked(const json& one, trade::Edition edition) {
    const auto* calculator = trade::find_calculator(one.at("calculator").get<std::string>());
    REQUIRE_MESSAGE(calculator != nullptr, one.dump());
    trade::Facts facts;
    for (const auto& [name, text] : one.at("facts").items()) {
        const auto spec =
            std::ranges::find_if(calculator->facts, [&](const trade::FactSpec& s) { return s.name == name; });
        REQUIRE_MESSAGE(spec != calculator->facts.end(), "no fact ", name, ": ", one.dump());
        auto value = trade::parse_fact(*spec, typed(text));
        REQUIRE_MESSAGE(value.has_value(), name, " = ", text.dump());
        facts.set(name, std::move(*value));
    }
    return calculator->run(facts, {edition, &data().tables(), true});
}

std::string differs(const std::string& name, const trade::Value* got, const json& wanted) {
    constexpr double kRounding = 1e-6;
    const bool same =
        got != nullptr &&
        (wanted.is_number() ? got->is_number() && std::abs(got->number - wanted.get<double>()) <= kRounding
                            : got->words == wanted.get<std::string>());
    if (same) return {};
    return name + ": " + (got == nullptr ? "nothing" : trade::to_text(*got)) + " instead of " + wanted.dump() + "; ";
}

std::string worked_otherwise(const json& one, trade::Edition edition) {
    const trade::Finding finding = worked(one, edition);
    const json& expect = one.at("expect");
    std::string told;
    if (expect.contains("answer"))
        told += differs("answer", finding.answer ? &*finding.answer : nullptr, expect.at("answer"));
    const json also = expect.value("also", json::object());
    for (const auto& [name, wanted] : also.items()) told += differs(name, finding.find(name), wanted);
    const json articles = expect.value("articles", json::array());
    for (const auto& article : articles)
        if (std::ranges::find(finding.articles, article.get<std::string>()) == finding.articles.end())
            told += "no " + article.dump() + " among " + base::join(finding.articles, ", ") + "; ";
    for (const auto& fact : finding.unknown) told += "asks for " + fact + "; ";
    return told;
}

void set(trade::CaseFacts& facts, const std::string& name, const json& value) {
    const auto done = value.is_boolean()  ? facts.set(name, value.get<bool>())
                      : value.is_number() ? facts.set(name, value.get<double>())
                                          : facts.set(name, value.get<std::string>());
    REQUIRE_MESSAGE(done.has_value(), name, " = ", value.dump());
}

trade::Ruling ruled(const json& one, trade::Edition edition) {
    trade::CaseFacts facts{data().vocabulary()};
    for (const auto& [name, value] : one.at("facts").items()) set(facts, name, value);
    trade::ResultSet asked = 0;
    for (const auto& name : one.at("asked")) {
        const auto at = data().vocabulary().find_result(name.get<std::string>());
        REQUIRE_MESSAGE(at.has_value(), name.dump());
        asked |= trade::ResultSet{1} << *at;
    }
    trade::Ruling ruling;
    data().book(edition).judge(facts, asked, ruling);
    return ruling;
}

std::string ruled_otherwise(const json& one, trade::Edition edition) {
    const trade::Ruling ruling = ruled(one, edition);
    const json& expect = one.at("expect");
    std::string told;
    const auto compare = [&](const char* key, trade::ResultSet got) {
        if (!expect.contains(key)) return;
        const auto names = trade::names_of(got, data().vocabulary());
        const std::set<std::string> wanted = expect.at(key);
        if (std::set<std::string>{names.begin(), names.end()} != wanted)
            told += std::string{key} + ": " + base::join(names, "+") + " instead of " + expect.at(key).dump() + "; ";
    };
    compare("requires", ruling.requires_);
    compare("permits", ruling.permits);
    for (const auto fact : ruling.unknown) told += "asks for " + data().vocabulary().facts()[fact].name + "; ";
    for (const auto& clash : ruling.findings) told += clash + "; ";
    return told;
}

std::ptrdiff_t with_confidence(const json& list, const std::string& confidence) {
    return std::ranges::count_if(list, [&](const json& one) { return one.at("confidence") == confidence; });
}

void check_source(const json& one) {
    CHECK_MESSAGE(one.at("source").get<std::string>().size() >= 6, one.dump());
    const auto basis = one.at("basis").get<std::string>();
    CHECK_MESSAGE((basis == "published" || basis == "memory"), one.dump());
    CHECK_MESSAGE((basis == "published" || one.at("confidence") != "high"), one.dump());
}

}  // namespace outside

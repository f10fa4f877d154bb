#include "practice/changeover.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "content/sample_trade.hpp"
#include "memory/state.hpp"

namespace {

using content::Change;
using content::Difference;
using content::Under;
using sample_rules::spoiled;
using trade::Edition;
using Kind = Difference::Kind;

const std::string kMoreRules = R"x(
    {"id": "m.moved", "title": "Moved", "why": "w", "requires": "AFCI", "when": {"wet": true},
     "versions": [{"editions": "2017", "article": "210.12(A)", "basis": {"kind": "practice"}},
                  {"editions": "2020-2026", "article": "210.12(B)", "basis": {"kind": "practice"}}]},
    {"id": "g.gone", "title": "Gone", "why": "w", "requires": "AFCI", "when": {"wet": true},
     "versions": [{"editions": "2017", "article": "210.12(C)", "basis": {"kind": "practice"}}]},
    {"id": "g.bath")x";

const std::string kRowsTable = R"json({
  "format": "greentag-table/1", "table": "rows", "title": "Rows", "article": "240.6(A)", "editions": "2017-2026",
  "basis": {"kind": "practice"}, "keys": ["rating"], "columns": {},
  "rows": [{"rating": "10", "editions_from": "2020", "says": "x"}, {"rating": "15"},
           {"rating": "20", "editions": "2017", "more": "a"}, {"rating": "20", "editions": "2020-2026", "more": "b"}]
})json";

struct World {
    content::Contents contents;
    content::TradeData data;
};

const World& world() {
    static const World made = [] {
        auto contents = sample_trade::contents(sample_trade::kPlaces,
                                               spoiled(sample_rules::kRules, "{\"id\": \"g.bath\"", kMoreRules));
        content::add_document(contents, kRowsTable, {"rows.json", 0, 0, 0});
        auto data = content::TradeData::make(contents).value();
        return World{std::move(contents), std::move(data)};
    }();
    return made;
}

std::vector<Difference> between(const Under& from, const Under& to) {
    return content::differences(world().contents, world().data, from, to);
}

/// The one of that kind and id; null when nothing differs there.
const Difference* find(const std::vector<Difference>& all, Kind kind, const std::string& id) {
    const auto found = std::ranges::find_if(all, [&](const auto& d) { return d.kind == kind && d.id == id; });
    return found == all.end() ? nullptr : &*found;
}

const Difference& get(const std::vector<Difference>& all, Kind kind, const std::string& id) {
    const auto* found = find(all, kind, id);
    REQUIRE_MESSAGE(found != nullptr, id);
    return *found;
}

const Under k2017 = {Edition::e2017, "", "2026-01-01"};
const Under k2020 = {Edition::e2020, "", "2026-01-01"};

}  // namespace

TEST_CASE("changeover: nothing differs from itself") {
    for (const auto edition : trade::kEditions) CHECK(between({edition, "", ""}, {edition, "", ""}).empty());
    CHECK(between({Edition::e2023, "ours", "2026-01-01"}, {Edition::e2023, "ours", "2026-01-01"}).empty());
    CHECK(between({Edition::e2023, "", ""}, {Edition::e2023, "plain", "2026-01-01"}).empty());
}

TEST_CASE("changeover: rules that are new, gone, changed and moved") {
    const auto all = between(k2017, k2020);
    const auto& sink = get(all, Kind::rule, "g.sink");
    CHECK(sink.change == Change::added);
    CHECK(sink.article_before.empty());
    CHECK(sink.article_after == "210.8(A)(7)");
    CHECK_FALSE(sink.local);
    CHECK(get(all, Kind::rule, "g.gone").change == Change::removed);
    CHECK(get(all, Kind::rule, "g.gone").article_after.empty());
    const auto& bath = get(all, Kind::rule, "g.bath");
    CHECK(bath.change == Change::changed);
    CHECK(bath.article_before == "210.8(A)(1)");
    CHECK(bath.unverified);
    CHECK(get(all, Kind::rule, "m.moved").change == Change::moved);
    CHECK(find(all, Kind::rule, "a.rooms") == nullptr);
    CHECK(find(all, Kind::rule, "w.wall") == nullptr);
}

TEST_CASE("changeover: the way back mirrors the way there") {
    const auto there = between(k2017, k2020);
    const auto back = between(k2020, k2017);
    REQUIRE(there.size() == back.size());
    for (const auto& one : there) {
        const auto& other = get(back, one.kind, one.id);
        CHECK(other.article_before == one.article_after);
        CHECK(other.after == one.before);
        const Change mirrored = one.change == Change::added     ? Change::removed
                                : one.change == Change::removed ? Change::added
                                                                : one.change;
        CHECK(other.change == mirrored);
    }
}

TEST_CASE("changeover: points by what they say and where they stand") {
    const auto all = between(k2017, k2020);
    CHECK(get(all, Kind::point, "box.volume").change == Change::added);
    CHECK(get(all, Kind::point, "box.volume").after == "Standard boxes have a volume by table.");
    CHECK(find(all, Kind::point, "box.accessible") == nullptr);
    const auto later = between({Edition::e2023, "", ""}, {Edition::e2026, "", ""});
    // Of 2026 only the wider reference is known, and it is not verified: that is no move.
    CHECK(find(later, Kind::point, "box.accessible") == nullptr);
}

TEST_CASE("changeover: rows of tables by edition") {
    const auto all = between(k2017, k2020);
    const auto& rows = get(all, Kind::table, "rows");
    CHECK(rows.change == Change::changed);
    CHECK(rows.before == "rating 20, more a");
    CHECK(rows.after == "rating 10; rating 20, more b");
    CHECK(find(between(k2020, {Edition::e2023, "", ""}), Kind::table, "rows") == nullptr);
}

TEST_CASE("changeover: what amendments do is local: added, deleted, replaced and delayed") {
    const Under before = {Edition::e2023, "", "2026-01-01"};
    const auto all = between(before, {Edition::e2023, "ours", "2026-01-01"});
    const auto change = [&](const std::string& id) {
        CHECK(get(all, Kind::rule, id).local);
        return get(all, Kind::rule, id).change;
    };
    CHECK(change("g.sink") == Change::removed);
    CHECK(change("local.yard") == Change::added);
    CHECK(change("a.rooms") == Change::changed);
    CHECK(change("w.wall") == Change::removed);
    CHECK(all.size() == 4);
    const auto later = between({Edition::e2023, "ours", "2026-01-01"}, {Edition::e2023, "ours", "2026-07-01"});
    REQUIRE(later.size() == 1);
    CHECK(later.front().id == "w.wall");
    CHECK(later.front().change == Change::added);
    CHECK(later.front().local);
}

TEST_CASE("changeover: a point at the very article of a local rule has to be learned anew") {
    const std::string places = spoiled(sample_trade::kPlaces, "\"article\": \"210.8\"", "\"article\": \"314.29\"");
    const auto contents = sample_trade::contents(places);
    const auto data = content::TradeData::make(contents).value();
    const auto all = content::differences(contents, data, {Edition::e2023, "", ""}, {Edition::e2023, "ours", ""});
    const auto& point = get(all, Kind::point, "box.accessible");
    CHECK(point.local);
    CHECK(point.change == Change::changed);
    CHECK(point.before == point.after);
    CHECK(find(all, Kind::point, "box.volume") == nullptr);
}

TEST_CASE("changeover: only points that someone has answered are to be learned anew, and none that is gone") {
    const auto all = between(k2017, k2020);
    memory::RecallState answered;
    answered.recalled = 1;
    store::RecallStates states;
    CHECK(practice::to_relearn(all, states).empty());
    states[base::PointId{"box.volume"}] = memory::RecallState{};
    CHECK(practice::to_relearn(all, states).empty());
    states[base::PointId{"box.volume"}] = answered;
    states[base::PointId{"box.accessible"}] = answered;
    CHECK(practice::to_relearn(all, states) == std::vector<base::PointId>{{"box.volume"}});
    CHECK(practice::to_relearn(between(k2020, k2017), states).empty());
}

TEST_CASE("changeover: differences come by topic and id") {
    const auto all = between(k2017, k2020);
    CHECK(std::ranges::is_sorted(all, {}, [](const Difference& d) { return std::tie(d.topic, d.kind, d.id); }));
    CHECK(to_text(Change::added) == "new");
    CHECK(to_text(Change::moved) == "moved");
}

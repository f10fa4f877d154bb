#include "content/outline.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "content/check/check.hpp"
#include "content/library.hpp"
#include "content/sample.hpp"

namespace {

using content::ArticleSpan;
using content::Outline;
using content::PointTraits;
using content::QuestionCount;
using sample::spoiled;

const std::string kOutline = R"json({
  "format": "greentag-outline/1",
  "id": "trial",
  "title": "A trial",
  "resembles": "No licence",
  "note": "Invented.",
  "book": "closed",
  "minutes": 60,
  "questions": 20,
  "pass": 0.7,
  "basis": {"kind": "published", "source": "A board's page"},
  "sections_basis": {"kind": "memory"},
  "sections": [
    {"id": "splices", "title": "Splices", "questions": 4, "tags": ["rough-in"], "pass": 0.5},
    {"id": "boxes", "title": "Boxes", "questions": {"min": 12, "max": 18}, "topics": ["boxes"], "articles": ["314"]},
    {"id": "pools", "title": "Pools", "questions": {"min": 1, "max": 3}, "articles": ["680 to 682"],
     "uncovered": "no points yet"}
  ]
}
)json";

/// The sample's deck with every point in every edition.
const std::string kWhole = spoiled(sample::kDeck, "\"editions\": \"2020-2026\"", "\"editions\": \"2017-2026\"");

/// A library with an outline, read and checked as far as outlines go; one line a fault.
std::vector<std::string> found(const std::string& outline, const std::string& deck = kWhole) {
    auto contents = sample::contents(deck);
    content::add_document(contents, outline, {"outline.json", 0, outline.size(), 0});
    content::check_outlines(contents, contents.faults);
    std::vector<std::string> lines;
    for (const auto& fault : contents.faults) {
        CHECK(fault.file == "outline.json");
        CHECK(fault.line > 0);
        CHECK_FALSE(fault.mend.empty());
        lines.push_back(fault.pointer + ": " + fault.what + "; " + fault.mend);
    }
    return lines;
}

std::string told(const std::vector<std::string>& lines) {
    std::string text;
    for (const auto& line : lines) text += line + "\n";
    return text;
}

Outline outline_of(const std::string& text) {
    content::Contents contents;
    content::add_document(contents, text, {"outline.json", 0, text.size(), 0});
    REQUIRE(contents.faults.empty());
    return contents.outlines.at(0);
}

struct Bad {
    std::string from, to;
    std::string pointer, what;
};

/// Each change brings its finding, at its place, and no other.
void check_bad(const std::vector<Bad>& all) {
    for (const auto& bad : all) {
        const std::string text = spoiled(kOutline, bad.from, bad.to);
        CAPTURE(bad.what);
        REQUIRE_FALSE(text.empty());
        const auto lines = found(text);
        CHECK_MESSAGE(lines.size() == 1, told(lines));
        CHECK_MESSAGE(std::ranges::any_of(lines,
                                          [&](const auto& line) {
                                              return line.starts_with(bad.pointer + ": ") &&
                                                     line.find(bad.what) != std::string::npos;
                                          }),
                      told(lines));
    }
}

ArticleSpan span(const char* text) {
    return content::parse_article_span(text).value();
}

bool covers(const char* run, const char* reference) {
    return content::covers(span(run), trade::parse_article(reference).value());
}

PointTraits traits(const std::string& id, const std::string& topic, const std::vector<std::string>& tags,
                   const char* article) {
    return {{id}, topic, tags, trade::parse_article(article), false};
}

std::vector<std::string> texts(const std::vector<base::PointId>& ids) {
    std::vector<std::string> all;
    for (const auto& id : ids) all.push_back(id.text);
    return all;
}

using Texts = std::vector<std::string>;

std::vector<QuestionCount> random_ranges(base::Random& random) {
    std::vector<QuestionCount> ranges(1 + random.below(12));
    for (auto& range : ranges) {
        range.least = static_cast<int>(random.below(15));
        range.most = range.least + static_cast<int>(random.below(3) == 0 ? 0 : random.below(20));
    }
    return ranges;
}

/// The share of each range when the common factor is found by halving: slow, and without a thought for whole numbers.
std::vector<double> plain_shares(const std::vector<QuestionCount>& ranges, double total) {
    const auto at = [&](double factor) {
        std::vector<double> shares;
        for (const auto& range : ranges)
            shares.push_back(std::clamp(factor * (range.least + range.most), double(range.least), double(range.most)));
        return shares;
    };
    double low = 0.0;
    double high = 1000.0;
    for (int i = 0; i < 100; ++i) {
        const double middle = (low + high) / 2;
        const auto shares = at(middle);
        (std::accumulate(shares.begin(), shares.end(), 0.0) < total ? low : high) = middle;
    }
    return at(high);
}

}  // namespace

TEST_CASE("outline: a good one is read in full and has no faults") {
    CHECK_MESSAGE(found(kOutline).empty(), told(found(kOutline)));
    const Outline outline = outline_of(kOutline);
    CHECK(outline.id == "trial");
    CHECK(outline.title == "A trial");
    CHECK(outline.resembles == "No licence");
    CHECK(outline.note == "Invented.");
    CHECK(outline.book == content::Book::closed);
    CHECK(outline.minutes == 60);
    CHECK(outline.questions == QuestionCount{20, 20});
    CHECK(outline.pass.share == 0.7);
    CHECK(outline.basis.source == "A board's page");
    CHECK(outline.sections_basis.kind == trade::Basis::Kind::memory);
    REQUIRE(outline.sections.size() == 3);
    CHECK(outline.sections[0].pass == 0.5);
    CHECK(outline.sections[1].questions == QuestionCount{12, 18});
    CHECK(outline.sections[1].articles == std::vector<ArticleSpan>{span("314")});
    CHECK(outline.sections[2].uncovered == "no points yet");
    CHECK(outline.sections[2].place.pointer == "/sections/2");
}

TEST_CASE("outline: without a basis of its own the split has that of the whole") {
    const Outline outline = outline_of(spoiled(kOutline, "  \"sections_basis\": {\"kind\": \"memory\"},\n", ""));
    CHECK(outline.sections_basis == outline.basis);
}

TEST_CASE("outline: each bad value is told where it stands") {
    check_bad({
        {"\"minutes\": 60", "\"minutes\": 0", "/minutes", "0 is no time to sit an exam in"},
        {"\"minutes\": 60", "\"minutes\": -5", "/minutes", "-5 is no time to sit an exam in"},
        {"  \"minutes\": 60,\n", "", "", "\"minutes\" is missing"},
        {"\"pass\": 0.7", "\"pass\": 0", "/pass", "0 is no share to pass with"},
        {"\"pass\": 0.7", "\"pass\": 70", "/pass", "70 is no share to pass with"},
        {"\"pass\": 0.7", "\"pass\": \"0.7\"", "/pass", "this should be a number"},
        {"\"pass\": 0.7", "\"pass\": {\"right\": 21}", "/pass", "21 right answers, more than the exam asks"},
        {"\"pass\": 0.7", "\"pass\": {\"right\": 0}", "/pass", "0 is no number of right answers"},
        {"  \"pass\": 0.7,\n", "", "", "\"pass\" is missing"},
        {"\"pass\": 0.5", "\"pass\": 1.5", "/sections/0/pass", "1.5 is no share to pass with"},
        {"\"closed\"", "\"shut\"", "/book", "'shut' says nothing of the book"},
        {"{\"kind\": \"published\", \"source\": \"A board's page\"}", "{\"kind\": \"published\"}", "/basis",
         "a published basis names its source"},
        {"\"questions\": 4", "\"questions\": 4.5", "/sections/0/questions", "4.5 is no number of questions"},
        {"\"questions\": 4", "\"questions\": \"4\"", "/sections/0/questions", "should be a number of questions"},
        {"\"min\": 12, \"max\": 18", "\"min\": 18, \"max\": 12", "/sections/1/questions", "18 to 12 ends before it"},
        {"[\"314\"]", "[\"box\"]", "/sections/1/articles/0", "'box' is no part of the code"},
        {"\"680 to 682\"", "\"682 to 680\"", "/sections/2/articles/0", "'682 to 680' is no part of the code"},
        {", \"tags\": [\"rough-in\"]", "", "/sections/0", "nothing says which points belong to this section"},
    });
}

TEST_CASE("outline: a missing basis and an empty list of sections are told") {
    const auto lines =
        found(spoiled(kOutline, "  \"basis\": {\"kind\": \"published\", \"source\": \"A board's page\"},\n", ""));
    CHECK(std::ranges::any_of(lines, [](const auto& line) { return line.starts_with(": \"basis\" is missing"); }));
    const std::string head = kOutline.substr(0, kOutline.find("\"sections\": ["));
    const auto none = found(head + "\"sections\": []}");
    REQUIRE_MESSAGE(none.size() == 1, told(none));
    CHECK(none[0].find("the outline has no sections") != std::string::npos);
}

TEST_CASE("outline: what cannot hold together with the library is told") {
    check_bad({
        {"\"questions\": 20", "\"questions\": 16", "", "come to 17 to 25 questions, but the exam has 16"},
        {"\"questions\": 20", "\"questions\": {\"min\": 26, \"max\": 30}", "", "but the exam has 26 to 30"},
        {"[\"boxes\"]", "[\"boxs\"]", "/sections/1", "no point has the topic 'boxs'; did you mean 'boxes'?"},
        {"[\"rough-in\"]", "[\"rough-in\", \"rogh-in\"]", "/sections/0", "no point has the tag 'rogh-in'"},
        {"\"id\": \"trial\"", "\"id\": \"A trial\"", "", "'A trial' is no good id for an outline"},
        {"\"id\": \"pools\"", "\"id\": \"boxes\"", "/sections/2", "the section 'boxes' stands twice in 'trial'"},
        {"\"uncovered\": \"no points yet\"", "\"note\": \"\", \"uncovered\": \"no points yet\"", "/sections/2/note",
         "unknown field \"note\""},
        {",\n     \"uncovered\": \"no points yet\"", "", "/sections/2",
         "the section 'pools' asks questions but has no point under 2017, 2020, 2023, 2026"},
    });
}

TEST_CASE("outline: a section is told the editions it has nothing for, and when earlier ones leave it nothing") {
    // In the sample, box.volume, the one point without the tag, begins in 2020.
    const auto gap = found(kOutline, sample::kDeck);
    REQUIRE_MESSAGE(gap.size() == 1, told(gap));
    CHECK(gap[0].find("'boxes' asks questions but has no point under 2017; widen") != std::string::npos);
    const auto shadow = found(spoiled(kOutline, "[\"rough-in\"]", "[\"box\"]"));
    REQUIRE_MESSAGE(shadow.size() == 1, told(shadow));
    CHECK(shadow[0].find("every point of the section 'boxes' falls to an earlier section") != std::string::npos);
}

TEST_CASE("outline: uncovered is for sections that lack points somewhere, and lets them name what is not there yet") {
    CHECK(found(spoiled(kOutline, "\"articles\": [\"680 to 682\"]", "\"tags\": [\"pool\"]")).empty());
    const std::string last = kOutline.substr(kOutline.find("{\"min\": 1,"));
    CHECK(found(spoiled(kOutline, last, "0, \"articles\": [\"680\"]}]}")).empty());
    const auto stale = found(spoiled(kOutline, "\"pass\": 0.5", "\"uncovered\": \"none yet\""));
    REQUIRE_MESSAGE(stale.size() == 1, told(stale));
    CHECK(stale[0].find("declared uncovered, but has points in every edition") != std::string::npos);
}

TEST_CASE("outline: a later root takes the place of an outline by id; twice in one root is a fault") {
    const sample::Folder below{"outline-below"};
    const sample::Folder above{"outline-above"};
    below.write_sample();
    below.write("decks/trial.json", kOutline);
    below.write("decks/zero.json", spoiled(kOutline, "\"trial\"", "\"a-first\""));
    above.write("decks/mine.json", spoiled(kOutline, "\"minutes\": 60", "\"minutes\": 90"));
    const auto outlines = content::load_outlines({below.path(), above.path()});
    REQUIRE(outlines.has_value());
    REQUIRE(outlines->size() == 2);
    CHECK(outlines->at(0).id == "a-first");
    CHECK(outlines->at(1).minutes == 90);
    CHECK(outlines->at(1).place.file == above.in("decks/mine.json"));
    CHECK(content::load_contents({below.path(), above.path()})->outlines.size() == 2);

    above.write("decks/again.json", kOutline);
    const auto twice = content::load_outlines({below.path(), above.path()});
    REQUIRE_FALSE(twice.has_value());
    REQUIRE(twice.error().size() == 1);
    CHECK(twice.error()[0].what.find("the id 'trial' is taken by " + above.in("decks/again.json")) == 0);
    CHECK(twice.error()[0].file == above.in("decks/mine.json"));
}

TEST_CASE("outline: loading gathers the faults of all files and is not stopped by those of decks") {
    const sample::Folder folder{"outline-faults"};
    folder.write("decks/broken.json", R"({"format": "greentag-deck/1", "deck": "d"})");
    folder.write("decks/good.json", kOutline);
    REQUIRE(content::load_outlines({folder.path()}).has_value());
    folder.write("decks/one.json", spoiled(kOutline, "\"minutes\": 60", "\"minutes\": 0"));
    folder.write("decks/two.json", spoiled(kOutline, "\"pass\": 0.7", "\"pass\": 2"));
    const auto outlines = content::load_outlines({folder.path()});
    REQUIRE_FALSE(outlines.has_value());
    const auto names = [&](const std::string& file) {
        return std::ranges::any_of(outlines.error(), [&](const auto& f) { return f.file == folder.in(file); });
    };
    CHECK(names("decks/one.json"));
    CHECK(names("decks/two.json"));
}

TEST_CASE("outline: a part of the code covers what lies wholly in it") {
    CHECK(covers("250", "250.122(B)"));
    CHECK(covers("250", "Article 250"));
    CHECK_FALSE(covers("250", "251.1"));
    CHECK(covers("210.8(A)", "210.8(A)(4)"));
    CHECK_FALSE(covers("210.8(A)", "210.8(B)"));
    CHECK_FALSE(covers("210.8(A)", "210.8"));
    CHECK_FALSE(covers("210.8", "Article 210"));
    CHECK(covers("300 to 398", "Article 300"));
    CHECK(covers("300 to 398", "398.30(C)"));
    CHECK_FALSE(covers("300 to 398", "399.10"));
    CHECK(covers("210.50 to 210.71", "210.70(A)(1)"));
    CHECK_FALSE(covers("210.50 to 210.71", "210.8(A)"));
    CHECK_FALSE(covers("210.50 to 210.71", "Article 210"));
    CHECK(covers("210.50 to 220", "220.82"));
    CHECK_FALSE(covers("200 to 210.71", "Article 210"));
    for (const char* text : {"", "boxes", "398 to 300", "300 to", "210.8(A) to 210.8(D)", "250 to 250.8 to 251"})
        CHECK_MESSAGE(!content::parse_article_span(text).has_value(), text);
}

TEST_CASE("outline: a point belongs to the first section that claims it, by topic, tag or reference") {
    const Outline outline = outline_of(kOutline);
    const std::vector<PointTraits> points = {
        traits("by.reference", "other", {"x"}, "314.16(B)"), traits("by.tag", "boxes", {"x", "rough-in"}, "314.29"),
        traits("by.topic", "boxes", {}, "110.3(B)"), traits("none", "other", {"x"}, "404.2"),
        traits("pool", "other", {}, "680.22(A)")};
    CHECK(content::section_of(outline, points[1]) == std::size_t{0});
    CHECK(content::claims(outline.sections[1], points[1]));
    const auto map = content::map_points(outline, points);
    REQUIRE(map.sections.size() == 3);
    CHECK(texts(map.sections[0]) == Texts{"by.tag"});
    CHECK(texts(map.sections[1]) == Texts{"by.reference", "by.topic"});
    CHECK(texts(map.sections[2]) == Texts{"pool"});
    CHECK(texts(map.outside) == Texts{"none"});
    CHECK(content::holes(outline, map).empty());
    CHECK(content::holes(outline, content::map_points(outline, {points[0]})) == std::vector<std::size_t>{0, 2});
    Outline eased = outline;
    eased.sections[0].questions = {0, 0};
    CHECK(content::holes(eased, content::map_points(eased, {points[0]})) == std::vector<std::size_t>{2});
    CHECK(content::points_of(outline, 1, points) == map.sections[1]);
    CHECK_THROWS_AS((void)content::points_of(outline, 3, points), std::out_of_range);
}

TEST_CASE("outline: traits follow the edition, and are the same from contents and from a library") {
    const auto contents = sample::contents();
    CHECK(texts({content::traits_in(contents, trade::Edition::e2017).at(0).id}) == Texts{"box.accessible"});
    CHECK(content::traits_in(contents, trade::Edition::e2017).size() == 1);
    const auto newest = content::traits_in(contents, trade::Edition::e2026);
    REQUIRE(newest.size() == 2);
    CHECK(newest[0].unverified);
    CHECK(newest[0].article == trade::parse_article("Article 314"));
    CHECK_FALSE(newest[1].unverified);

    const sample::Folder folder{"outline-traits"};
    folder.write_sample();
    const auto library = content::open_library({folder.path()}, "").value();
    for (const auto edition : trade::kEditions) {
        const auto whole = content::traits_in(contents, edition);
        const auto read = content::traits_in(library, edition);
        REQUIRE(read.size() == whole.size());
        for (std::size_t i = 0; i < read.size(); ++i) {
            CHECK(read[i].id == whole[i].id);
            CHECK(read[i].article == whole[i].article);
            CHECK(read[i].tags == whole[i].tags);
            CHECK(read[i].unverified == whole[i].unverified);
        }
    }
}

TEST_CASE("outline: the questions of a total are divided by hand-worked examples") {
    using Given = std::vector<int>;
    const auto give = [](const std::vector<QuestionCount>& ranges, int total) {
        return content::divide_questions(ranges, total).value();
    };
    CHECK(give({{4, 4}, {12, 12}}, 16) == Given{4, 12});
    // Weights 4, 4, 2: shares 4.4, 4.4, 2.2; the spare one goes to the first of the largest remainders.
    CHECK(give({{0, 8}, {0, 8}, {0, 4}}, 11) == Given{5, 4, 2});
    // Weights 10, 30: shares 5 and 15; the first is held at 6, the second has what is left.
    CHECK(give({{6, 14}, {0, 60}}, 20) == Given{6, 14});
    CHECK(give({{0, 3}, {0, 0}, {2, 2}}, 2) == Given{0, 0, 2});
    CHECK(give({{0, 3}, {0, 3}}, 0) == Given{0, 0});
    CHECK(give({}, 0).empty());
    CHECK_FALSE(content::divide_questions({{1, 3}, {2, 4}}, 2).has_value());
    CHECK_FALSE(content::divide_questions({{1, 3}, {2, 4}}, 8).has_value());
    CHECK_FALSE(content::divide_questions(std::vector<QuestionCount>{}, 1).has_value());
}

TEST_CASE("outline: every division is whole, within the ranges, and less than one off the plain shares") {
    base::Random random{base::Seed{41}};
    for (int round = 0; round < 600; ++round) {
        CAPTURE(round);
        const auto ranges = random_ranges(random);
        const int least = std::accumulate(ranges.begin(), ranges.end(), 0, [](int n, auto r) { return n + r.least; });
        const int most = std::accumulate(ranges.begin(), ranges.end(), 0, [](int n, auto r) { return n + r.most; });
        const int total = least + static_cast<int>(random.below(static_cast<std::uint32_t>(most - least + 1)));
        const auto given = content::divide_questions(ranges, total);
        REQUIRE(given.has_value());
        CHECK(std::accumulate(given->begin(), given->end(), 0) == total);
        const auto shares = plain_shares(ranges, total);
        for (std::size_t i = 0; i < ranges.size(); ++i) {
            CHECK(ranges[i].contains(given->at(i)));
            CHECK(std::abs(given->at(i) - shares[i]) < 1.0 + 1e-6);
            for (std::size_t k = i + 1; k < ranges.size(); ++k)
                if (ranges[i] == ranges[k]) CHECK(QuestionCount{0, 1}.contains(given->at(i) - given->at(k)));
        }
        CHECK(content::divide_questions(ranges, total) == given);
        CHECK_FALSE(content::divide_questions(ranges, most + 1).has_value());
        CHECK_FALSE(content::divide_questions(ranges, least - 1).has_value());
    }
}

TEST_CASE("outline: the totals that exam and sections allow, and the right answers that pass") {
    Outline outline = outline_of(kOutline);
    CHECK(content::possible_totals(outline) == QuestionCount{20, 20});
    CHECK(content::questions_per_section(outline, 20) == std::vector<int>{4, 14, 2});
    outline.questions = {10, 22};
    CHECK(content::possible_totals(outline) == QuestionCount{17, 22});
    outline.questions = {26, 30};
    CHECK_FALSE(content::possible_totals(outline).has_value());

    for (const int percent : {1, 7, 29, 55, 57, 58, 70, 75, 76, 80, 100}) {
        outline.pass = {percent / 100.0, 0};
        CHECK_MESSAGE(content::right_to_pass(outline, 100) == percent, percent);
    }
    outline.pass = {0.7, 0};
    CHECK(content::right_to_pass(outline, 25) == 18);
    outline.questions = {50, 50};
    outline.pass = {0.0, 38};
    CHECK(content::right_to_pass(outline, 50) == 38);
    CHECK(content::right_to_pass(outline, 25) == 19);
    CHECK(content::right_to_pass(outline, 10) == 8);
}

TEST_CASE("outline: those that are shipped can be sat, and say so where they have no points") {
    const auto contents = content::load_contents(content::find_sources({PROJECT_FOLDER}).value(),
                                                 {"greentag-deck/1", "greentag-outline/1"});
    base::Faults faults = contents.faults;
    content::check_outlines(contents, faults);
    std::string text;
    for (const auto& fault : faults) text += base::to_text(fault) + "\n";
    CHECK_MESSAGE(faults.empty(), text);
    CHECK(contents.outlines.size() >= 4);
    const auto points = content::traits_in(contents, trade::Edition::e2023);
    CHECK(std::ranges::is_sorted(points, {}, &PointTraits::id));
    for (const auto& outline : contents.outlines) {
        CAPTURE(outline.id);
        const auto totals = content::possible_totals(outline);
        REQUIRE(totals.has_value());
        for (const int total : {totals->least, totals->most})
            CHECK(content::questions_per_section(outline, total).has_value());
        // All that is shipped serves every exam that is shipped; a dwelling exam leaves out what dwellings have not.
        const auto map = content::map_points(outline, points);
        for (const auto& id : map.outside) CHECK_MESSAGE(outline.id == "residential-wireman", id.text);
        CHECK(map.outside.size() < points.size() / 15);
        for (const auto hole : content::holes(outline, map)) CHECK_FALSE(outline.sections[hole].uncovered.empty());
        if (outline.id == "shop-basics") CHECK(content::holes(outline, map).empty());
    }
}

#include <algorithm>
#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/context.hpp"
#include "cli/crew_edition.hpp"
#include "store/text_index.hpp"
#include "trade/article.hpp"

namespace cli {
namespace {

using nlohmann::ordered_json;

struct Hit {
    const content::Point* point;
    const content::Version* version;
};

/// The edition to show. A store that cannot be read keeps nobody from looking something up.
trade::Edition edition_of(const Context& context) {
    try {
        return edition_meant(context);
    } catch (const base::Failure&) {
        if (context.has("--learner")) throw;
        return trade::Edition::e2023;
    }
}

bool under(const std::string& article, const trade::Article& wanted) {
    const auto reference = trade::parse_article(article);
    if (!reference) return false;
    const auto match = compare(*reference, wanted);
    return match == trade::ArticleMatch::exact || match == trade::ArticleMatch::deeper;
}

std::vector<Hit> by_article(const content::Contents& contents, const trade::Article& wanted, trade::Edition edition) {
    std::vector<Hit> hits;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points)
            if (const auto* version = point.version(edition))
                if (under(version->article, wanted)) hits.push_back({&point, version});
    return hits;
}

std::vector<store::TextRow> rows_of(const content::Contents& contents, trade::Edition edition) {
    std::vector<store::TextRow> rows;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points)
            if (const auto* version = point.version(edition))
                rows.push_back({point.id.text, point.title, version->says,
                                base::join(point.tags, " ") + " " + version->article + " " + deck.title});
    return rows;
}

std::vector<Hit> by_words(const content::Contents& contents, const std::vector<std::string>& words,
                          trade::Edition edition, std::size_t most) {
    const store::TextIndex index{rows_of(contents, edition)};
    std::vector<Hit> hits;
    for (const auto& key : index.search(words, most)) {
        const auto* point = contents.point({key});
        hits.push_back({point, point->version(edition)});
    }
    return hits;
}

void print_hits(const Context& context, const std::vector<Hit>& hits, trade::Edition edition) {
    const auto page = context.page();
    std::vector<std::string> lines;
    for (const auto& [point, version] : hits) {
        lines.push_back(report::inked(page, report::Ink::bold, version->article) + "  " + point->title);
        report::add(lines, page, version->says + (version->unverified ? " [not verified for this edition]" : ""), 4);
        report::add(lines, page, point->id.text + ", stakes: " + std::string{content::to_text(point->stakes)}, 4,
                    report::Ink::faint);
    }
    if (hits.empty())
        lines.emplace_back("Nothing found. Try fewer or other words, or an article such as 210.8.");
    else
        report::add(lines, page,
                    report::counted(hits.size(), "point") + " under the " + trade::to_text(edition) +
                        " edition. Verify in the adopted code.",
                    0, report::Ink::faint);
    context.print(lines);
}

ordered_json hits_json(const std::vector<Hit>& hits, trade::Edition edition) {
    ordered_json list = ordered_json::array();
    for (const auto& [point, version] : hits)
        list.push_back({{"point", point->id.text},
                        {"title", point->title},
                        {"article", version->article},
                        {"says", version->says},
                        {"topic", point->topic},
                        {"stakes", content::to_text(point->stakes)},
                        {"unverified", version->unverified}});
    return {{"ok", true}, {"edition", trade::to_text(edition)}, {"found", list}};
}

}  // namespace

base::Exit run_find(Context& context) {
    const auto contents = context.load_contents();
    const auto edition = edition_of(context);
    const auto most = static_cast<std::size_t>(context.number("--most", 12, 1, 1000));
    const std::string typed = base::join(context.values("WORDS"), " ");
    std::vector<Hit> hits;
    if (const auto article = trade::parse_article(typed)) hits = by_article(contents, *article, edition);
    if (hits.empty()) hits = by_words(contents, base::words(typed), edition, most);
    if (hits.size() > most) hits.resize(most);
    if (context.json())
        context.out() << hits_json(hits, edition).dump(2) << '\n';
    else
        print_hits(context, hits, edition);
    return hits.empty() ? base::Exit::problems : base::Exit::fine;
}

}  // namespace cli

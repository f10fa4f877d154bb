#include "practice/shop/week_talk.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include <tuple>

#include "base/text.hpp"
#include "content/compose.hpp"

namespace practice {
namespace {

constexpr std::size_t kFewestSaid = 3;
constexpr std::size_t kMostSaid = 5;

/// A point of the week as the contents have it.
struct Known {
    const content::Point* point = nullptr;
    const content::Version* version = nullptr;
    const content::Deck* deck = nullptr;
};

/// The points of the week, those of most stakes first.
std::vector<Known> known_points(const PlannedWeek& week, const content::Contents& contents, trade::Edition edition) {
    std::set<base::PointId> wanted;
    for (const auto& point : week.points) wanted.insert(point.id);
    std::vector<Known> known;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points)
            if (const auto* version = point.version(edition); version != nullptr && wanted.count(point.id) > 0)
                known.push_back({&point, version, &deck});
    std::sort(known.begin(), known.end(), [](const Known& a, const Known& b) {
        return std::tuple(a.point->stakes, a.version->unverified, a.point->id) <
               std::tuple(b.point->stakes, b.version->unverified, b.point->id);
    });
    return known;
}

std::size_t words_in(const std::string& text) {
    std::size_t count = 0;
    for (const auto& word : base::split(text, ' ')) count += base::trim(word).empty() ? 0 : 1;
    return count;
}

std::vector<std::string> mistakes_of(const content::Question& question) {
    std::vector<std::string> ids;
    for (const auto& wrong : question.wrong) ids.push_back(wrong.mistake);
    for (const auto& wrong : question.wrong_numbers) ids.push_back(wrong.mistake);
    for (const auto& wrong : question.wrong_articles) ids.push_back(wrong.mistake);
    for (const auto& wrong : question.wrong_orders) ids.push_back(wrong.mistake);
    for (const auto& wrong : question.wrong_words) ids.push_back(wrong.mistake);
    return ids;
}

struct Made {
    std::size_t made = 0, named = 0;
    content::Stakes stakes = content::Stakes::paperwork;
    std::string says;
};

std::string commonest_mistake(const std::vector<Known>& known, trade::Edition edition, const MistakeCounts& made) {
    std::map<std::pair<std::string, std::string>, Made> found;
    for (const auto& [point, version, deck] : known)
        for (const auto& question : point->questions)
            for (const auto& id : mistakes_of(question)) {
                const auto says = deck->mistakes.find(id);
                if (says == deck->mistakes.end() || !content::holds_in(question, *point, edition)) continue;
                auto& one = found[{deck->name, id}];
                const auto count = made.find({deck->name, id});
                one.made = count == made.end() ? 0 : count->second;
                ++one.named;
                one.stakes = std::min(one.stakes, point->stakes);
                one.says = says->second;
            }
    const auto most = std::max_element(found.begin(), found.end(), [](const auto& a, const auto& b) {
        // The smaller stakes value is the graver one.
        return std::tuple(a.second.made, a.second.named, b.second.stakes) <
               std::tuple(b.second.made, b.second.named, a.second.stakes);
    });
    return most == found.end() ? "" : most->second.says;
}

/// The first caution of its own among the points in the order given.
std::string own_caution(const std::vector<Known>& points) {
    const auto found =
        std::find_if(points.begin(), points.end(), [](const Known& one) { return !one.point->caution.empty(); });
    return found == points.end() ? "" : found->point->caution;
}

std::string caution_of(const std::vector<Known>& said, const std::vector<Known>& known) {
    if (known.empty()) return "";
    std::string own = own_caution(said);
    if (own.empty()) own = own_caution(known);
    const std::string usual = content::usual_caution(known.front().point->stakes);
    if (own.empty() || usual.empty()) return own + usual;
    return own + " And always: " + usual;
}

/// Points by stakes as far as the words allow; the shortest others when that makes fewer than three.
std::vector<Known> points_to_say(const std::vector<Known>& known, std::size_t words) {
    std::vector<std::size_t> taken;
    std::size_t used = 0;
    for (std::size_t n = 0; n < known.size() && taken.size() < kMostSaid; ++n) {
        const std::size_t more = words_in(known[n].version->says);
        if (used + more > words) continue;
        used += more;
        taken.push_back(n);
    }
    while (taken.size() < std::min(kFewestSaid, known.size())) {
        std::optional<std::size_t> shortest;
        for (std::size_t n = 0; n < known.size(); ++n)
            if (std::find(taken.begin(), taken.end(), n) == taken.end() &&
                (!shortest || words_in(known[n].version->says) < words_in(known[*shortest].version->says)))
                shortest = n;
        taken.push_back(*shortest);
    }
    std::sort(taken.begin(), taken.end());
    std::vector<Known> said;
    for (const auto n : taken) said.push_back(known[n]);
    return said;
}

}  // namespace

WeekTalk week_talk(const PlannedWeek& week, const content::Contents& contents, trade::Edition edition,
                   const MistakeCounts& made) {
    WeekTalk talk;
    talk.title = week.title;
    const auto known = known_points(week, contents, edition);
    talk.mistake = commonest_mistake(known, edition, made);
    // Room is left for the longest caution there may be, as it depends on what is said.
    std::size_t caution = words_in(caution_of({}, known));
    for (const auto& one : known) caution = std::max(caution, words_in(caution_of({one}, known)));
    const std::size_t rest = words_in(talk.title) + words_in(talk.mistake) + caution;
    const auto said = points_to_say(known, kTalkWords > rest ? kTalkWords - rest : 0);
    talk.caution = caution_of(said, known);
    talk.words = words_in(talk.title) + words_in(talk.mistake) + words_in(talk.caution);
    for (const auto& one : said) {
        talk.points.push_back({one.point->id, one.version->article, one.version->says, one.version->unverified});
        talk.words += words_in(one.version->says);
    }
    return talk;
}

std::vector<std::string> talk_lines(const WeekTalk& talk) {
    std::vector<std::string> lines = {talk.title};
    int number = 0;
    for (const auto& point : talk.points)
        lines.push_back(std::to_string(++number) + ". " + point.says + " (" + point.article + ")" +
                        (point.unverified ? " [not confirmed for this edition: look it up before you say it]" : ""));
    if (!talk.mistake.empty()) lines.push_back("Commonest mistake: " + talk.mistake);
    if (!talk.caution.empty()) lines.push_back("CAUTION: " + talk.caution);
    return lines;
}

}  // namespace practice

#include "content/originality.hpp"

#include <algorithm>
#include <cassert>
#include <cstdint>

#include "base/random.hpp"
#include "base/text.hpp"
#include "content/contents.hpp"

namespace content {
namespace {

constexpr std::size_t kSeed = 4;
// So many words have to follow a changed one before the run counts as going on.
constexpr std::size_t kAfterChange = 2;

struct Words {
    std::vector<std::string> words;  ///< an empty one stands for a stock phrase: it equals nothing
    std::vector<int> lines;
};

/// Words of a text with their lines; a word broken at the end of a line by a hyphen is put together.
Words words_of(std::string_view text) {
    Words found;
    int number = 0;
    bool broken = false;
    for (const auto& line : base::split(std::string{text}, '\n')) {
        ++number;
        const auto trimmed = base::trim(line);
        bool first = true;
        for (auto& word : base::words(trimmed)) {
            if (broken && first && !found.words.empty()) {
                found.words.back() += word;
            } else {
                found.words.push_back(std::move(word));
                found.lines.push_back(number);
            }
            first = false;
        }
        broken = trimmed.size() > 1 && trimmed.back() == '-';
    }
    return found;
}

bool stands_at(const std::vector<std::string>& words, std::size_t at, const std::vector<std::string>& phrase) {
    return at + phrase.size() <= words.size() &&
           std::equal(phrase.begin(), phrase.end(), words.begin() + static_cast<std::ptrdiff_t>(at));
}

void blot_out(Words& text, const std::vector<std::vector<std::string>>& phrases) {
    std::vector<bool> blotted(text.words.size());
    for (const auto& phrase : phrases)
        for (std::size_t at = 0; !phrase.empty() && at < text.words.size(); ++at)
            if (stands_at(text.words, at, phrase))
                std::fill_n(blotted.begin() + static_cast<std::ptrdiff_t>(at), phrase.size(), true);
    for (std::size_t n = 0; n < blotted.size(); ++n)
        if (blotted[n]) text.words[n].clear();
}

/// The four words from a place on as one number; nothing where a stock phrase stands among them.
std::optional<std::uint64_t> seed_at(const Words& text, std::size_t at) {
    if (at + kSeed > text.words.size()) return std::nullopt;
    std::string run;
    for (std::size_t n = at; n < at + kSeed; ++n) {
        if (text.words[n].empty()) return std::nullopt;
        run += text.words[n] + ' ';
    }
    return base::stable_hash(run);
}

struct Seed {
    std::uint64_t hash = 0;
    std::size_t at = 0;
};

std::vector<Seed> seeds_of(const Words& text) {
    std::vector<Seed> seeds;
    for (std::size_t at = 0; at < text.words.size(); ++at)
        if (const auto hash = seed_at(text, at)) seeds.push_back({*hash, at});
    std::sort(seeds.begin(), seeds.end(),
              [](const Seed& a, const Seed& b) { return a.hash != b.hash ? a.hash < b.hash : a.at < b.at; });
    return seeds;
}

bool same(const Words& a, std::size_t i, const Words& b, std::size_t j) {
    return i < a.words.size() && j < b.words.size() && !a.words[i].empty() && a.words[i] == b.words[j];
}

std::size_t length_of_same(const Words& a, std::size_t i, const Words& b, std::size_t j) {
    std::size_t length = 0;
    while (same(a, i + length, b, j + length)) ++length;
    return length;
}

struct Match {
    std::size_t words = 0, end = 0;  ///< shared words; where the run ends in the passage
    std::size_t reference = 0;
    bool changed = false;
};

/// The run from two places on that hold the same word: as far as it goes, one change forgiven.
Match grown(const Words& passage, std::size_t i, const Words& text, std::size_t j) {
    const std::size_t straight = length_of_same(passage, i, text, j);
    Match match{straight, i + straight, j, false};
    struct Change {
        std::size_t in_passage, in_text;
    };
    for (const auto& change : {Change{1, 1}, Change{1, 0}, Change{0, 1}}) {
        const std::size_t from = i + straight + change.in_passage;
        const std::size_t more = length_of_same(passage, from, text, j + straight + change.in_text);
        if (more >= kAfterChange && straight + more > match.words) match = {straight + more, from + more, j, true};
    }
    return match;
}

/// The longest run that begins at a place of the passage.
Match best_at(const Words& passage, std::size_t at, const Words& text, const std::vector<Seed>& seeds) {
    Match best;
    const auto hash = seed_at(passage, at);
    if (!hash) return best;
    auto seed = std::lower_bound(seeds.begin(), seeds.end(), *hash,
                                 [](const Seed& one, std::uint64_t wanted) { return one.hash < wanted; });
    for (; seed != seeds.end() && seed->hash == *hash; ++seed) {
        const auto match = grown(passage, at, text, seed->at);
        if (match.words > best.words) best = match;
    }
    return best;
}

std::string run_text(const Words& passage, std::size_t from, std::size_t to) {
    std::string text;
    for (std::size_t n = from; n < to; ++n) text += (n == from ? "" : " ") + passage.words[n];
    return text;
}

void add_runs(std::size_t number, const Words& passage, const Words& text, const std::vector<Seed>& seeds,
              std::size_t least, std::vector<SharedRun>& runs) {
    for (std::size_t at = 0; at + kSeed <= passage.words.size();) {
        const Match match = best_at(passage, at, text, seeds);
        if (match.words < least) {
            ++at;
            continue;
        }
        runs.push_back(
            {number, match.words, match.changed, run_text(passage, at, match.end), text.lines[match.reference]});
        at = match.end;
    }
}

void add_question(std::vector<Passage>& all, const std::string& owner, const Question& question) {
    const std::string name = owner + "#" + question.id;
    const auto add = [&](const std::string& what, const std::string& text) {
        if (!text.empty()) all.push_back({name + ", " + what, text, question.place});
    };
    add("question", question.text);
    add("why", question.why);
    for (const auto& right : question.right) add("right answer", right);
    for (const auto& wrong : question.wrong) add("wrong option", wrong.text);
}

void add_mistakes(std::vector<Passage>& all, const std::string& owner, const Mistakes& mistakes, const Place& place) {
    for (const auto& [id, says] : mistakes) all.push_back({owner + ", mistake " + id, says, place});
}

}  // namespace

std::vector<Passage> passages(const Contents& contents) {
    std::vector<Passage> all;
    for (const auto& deck : contents.decks) {
        add_mistakes(all, "deck " + deck.name, deck.mistakes, deck.mistakes_place);
        for (const auto& point : deck.points) {
            all.push_back({point.id.text + ", title", point.title, point.place});
            if (!point.caution.empty()) all.push_back({point.id.text + ", caution", point.caution, point.place});
            for (const auto& version : point.versions)
                all.push_back({point.id.text + ", says", version.says, point.place});
            for (const auto& question : point.questions) add_question(all, point.id.text, question);
        }
    }
    for (const auto& family : contents.families) {
        add_mistakes(all, "calls " + family.name, family.mistakes, family.mistakes_place);
        for (const auto& scenario : family.scenarios) {
            all.push_back({scenario.id + ", story", scenario.story, scenario.place});
            for (const auto& ask : scenario.asks) add_question(all, scenario.id, ask);
        }
    }
    for (const auto& change : contents.changes)
        if (!change.says.empty()) all.push_back({"change of " + change.id, change.says, change.place});
    return all;
}

std::vector<SharedRun> shared_runs(const std::vector<Passage>& passages, std::string_view text,
                                   const std::vector<StockPhrase>& stock, std::size_t least) {
    assert(least >= kSeed);
    std::vector<std::vector<std::string>> phrases;
    for (const auto& one : stock) phrases.push_back(base::words(one.text));
    Words reference = words_of(text);
    blot_out(reference, phrases);
    const auto seeds = seeds_of(reference);
    std::vector<SharedRun> runs;
    for (std::size_t n = 0; n < passages.size(); ++n) {
        Words passage = words_of(passages[n].text);
        blot_out(passage, phrases);
        add_runs(n, passage, reference, seeds, least, runs);
    }
    return runs;
}

}  // namespace content

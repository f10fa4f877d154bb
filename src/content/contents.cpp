#include "content/contents.hpp"

#include <algorithm>
#include <map>
#include <unordered_map>
#include <utility>

#include "base/located_json.hpp"
#include "base/text.hpp"
#include "content/read/read.hpp"
#include "content/read/read_figures.hpp"
#include "content/read/read_jobs.hpp"
#include "content/read/read_outline.hpp"
#include "content/read/read_phrases.hpp"
#include "content/read/read_readings.hpp"
#include "content/read/read_rules.hpp"

namespace content {
namespace {

void add_read(Contents& contents, const base::Reader& document, const std::string& format) {
    if (format == kDeckFormat) {
        contents.decks.push_back(read_deck(document));
    } else if (format == kScenarioFormat) {
        contents.families.push_back(read_scenarios(document));
    } else if (format == kTableFormat) {
        contents.tables.push_back(read_table(document));
    } else if (format == kJurisdictionFormat) {
        for (auto& one : read_jurisdictions(document)) contents.jurisdictions.push_back(std::move(one));
    } else if (format == kFactsFormat) {
        contents.vocabulary = std::make_shared<const trade::Vocabulary>(read_vocabulary(document));
    } else if (format == kRulesFormat) {
        for (auto& one : read_rules(document)) contents.rules.push_back(std::move(one));
    } else if (format == kChangesFormat) {
        for (auto& one : read_changes(document)) contents.changes.push_back(std::move(one));
    } else if (format == kFiguresFormat) {
        for (auto& one : read_figures(document)) contents.figures.push_back(std::move(one));
    } else if (format == kReadingsFormat) {
        for (auto& one : read_readings(document)) contents.readings.push_back(std::move(one));
    } else if (format == kOutlineFormat) {
        contents.outlines.push_back(read_outline(document));
    } else if (format == kJobsFormat) {
        for (auto& one : read_jobs(document)) contents.jobs.push_back(std::move(one));
    } else if (format == kPhrasesFormat) {
        for (auto& one : read_phrases(document)) contents.stock.push_back(std::move(one));
    } else {
        document.fault(
            "'" + format + "' is no format that this version reads",
            "write one of " +
                base::join({std::string{kDeckFormat}, std::string{kScenarioFormat}, std::string{kTableFormat},
                            std::string{kJurisdictionFormat}, std::string{kFactsFormat}, std::string{kRulesFormat},
                            std::string{kChangesFormat}, std::string{kOutlineFormat}, std::string{kPhrasesFormat},
                            std::string{kFiguresFormat}, std::string{kReadingsFormat}, std::string{kJobsFormat}},
                           ", "));
    }
}

/// Leaves out what a later root says anew. Twice within one root is a fault: which of the two was meant?
template <class T, class Id>
class Overlay {
public:
    explicit Overlay(Id id) : id_{std::move(id)} {}

    void see(const T& item, std::uint32_t root, const Place& place, base::Faults& faults) {
        const auto [at, fresh] = seen_.try_emplace(id_(item), std::pair{root, place});
        if (fresh) return;
        if (at->second.first == root) {
            faults.push_back({place.file, place.pointer, place.line,
                              "the id '" + id_(item) + "' is taken by " + at->second.second.file + ":" +
                                  std::to_string(at->second.second.line),
                              "give one of the two another id", false});
        }
        at->second = {root, place};
    }
    /// True for the one that counts: the last that was seen.
    [[nodiscard]] bool counts(const T& item, const Place& place) const {
        const auto& kept = seen_.at(id_(item)).second;
        return kept.file == place.file && kept.pointer == place.pointer;
    }

private:
    Id id_;
    std::map<std::string, std::pair<std::uint32_t, Place>> seen_;
};

std::uint32_t root_of(const Contents& contents, const std::string& file) {
    const auto found =
        std::find_if(contents.files.begin(), contents.files.end(), [&](const SourceFile& f) { return f.path == file; });
    return found == contents.files.end() ? 0 : found->root;
}

void settle_points(Contents& contents) {
    Overlay<Point, std::string (*)(const Point&)> overlay{[](const Point& p) { return p.id.text; }};
    for (const auto& deck : contents.decks) {
        const auto root = root_of(contents, deck.place.file);
        for (const auto& point : deck.points) overlay.see(point, root, point.place, contents.faults);
    }
    for (auto& deck : contents.decks)
        deck.overlaid = std::erase_if(deck.points, [&](const Point& p) { return !overlay.counts(p, p.place); }) > 0;
}

void settle_scenarios(Contents& contents) {
    Overlay<Scenario, std::string (*)(const Scenario&)> overlay{[](const Scenario& s) { return s.id; }};
    for (const auto& family : contents.families) {
        const auto root = root_of(contents, family.place.file);
        for (const auto& one : family.scenarios) overlay.see(one, root, one.place, contents.faults);
    }
    for (auto& family : contents.families)
        family.overlaid =
            std::erase_if(family.scenarios, [&](const Scenario& s) { return !overlay.counts(s, s.place); }) > 0;
}

void settle_rules(Contents& contents) {
    Overlay<trade::Rule, std::string (*)(const trade::Rule&)> overlay{[](const trade::Rule& r) { return r.id; }};
    const auto place = [](const trade::Rule& r) { return Place{r.spot.file, r.spot.pointer, r.spot.line, 0, 0}; };
    for (const auto& rule : contents.rules)
        overlay.see(rule, root_of(contents, rule.spot.file), place(rule), contents.faults);
    std::erase_if(contents.rules, [&](const trade::Rule& r) { return !overlay.counts(r, place(r)); });
}

void settle_outlines(Contents& contents) {
    Overlay<Outline, std::string (*)(const Outline&)> overlay{[](const Outline& o) { return o.id; }};
    for (const auto& outline : contents.outlines)
        overlay.see(outline, root_of(contents, outline.place.file), outline.place, contents.faults);
    std::erase_if(contents.outlines, [&](const Outline& o) { return !overlay.counts(o, o.place); });
    std::sort(contents.outlines.begin(), contents.outlines.end(),
              [](const Outline& a, const Outline& b) { return a.id < b.id; });
}

void settle_jobs(Contents& contents) {
    Overlay<Job, std::string (*)(const Job&)> overlay{[](const Job& j) { return j.id; }};
    for (const auto& job : contents.jobs)
        overlay.see(job, root_of(contents, job.place.file), job.place, contents.faults);
    std::erase_if(contents.jobs, [&](const Job& j) { return !overlay.counts(j, j.place); });
}

/// Tables and jurisdictions are few: the last of a name wins, whichever root it is from.
template <class T>
void keep_last(std::vector<T>& items) {
    for (std::size_t i = 0; i < items.size();) {
        const bool later = std::any_of(items.begin() + static_cast<std::ptrdiff_t>(i) + 1, items.end(),
                                       [&](const T& other) { return other.id == items[i].id; });
        if (later)
            items.erase(items.begin() + static_cast<std::ptrdiff_t>(i));
        else
            ++i;
    }
}

}  // namespace

const Point* Contents::point(const base::PointId& id) const {
    for (const auto& deck : decks)
        for (const auto& point : deck.points)
            if (point.id == id) return &point;
    return nullptr;
}

const trade::Table* Contents::table(const std::string& id) const {
    const auto found = std::find_if(tables.begin(), tables.end(), [&](const trade::Table& t) { return t.id == id; });
    return found == tables.end() ? nullptr : &*found;
}

void add_document(Contents& contents, const std::string& text, const SourceFile& file) {
    const auto located = base::parse_located(text, file.path);
    if (!located) {
        contents.faults.insert(contents.faults.end(), located.error().begin(), located.error().end());
        return;
    }
    const base::Reader document{*located, file.path, "", contents.faults};
    if (!std::holds_alternative<base::Located::Members>(located->value)) {
        document.fault("the file should hold an object but holds " + std::string{located->kind()}, "begin it with {");
        return;
    }
    const std::string format = document.text("format");
    if (document.has_text("format")) add_read(contents, document, format);
}

namespace {

bool names_any(const std::string& text, const std::vector<std::string_view>& formats) {
    return formats.empty() || std::any_of(formats.begin(), formats.end(), [&](std::string_view format) {
               return text.find(format) != std::string::npos;
           });
}

}  // namespace

Contents load_contents(std::vector<SourceFile> files) {
    return load_contents(std::move(files), {});
}

Contents load_contents(std::vector<SourceFile> files, const std::vector<std::string_view>& formats) {
    Contents contents;
    contents.files = std::move(files);
    for (const auto& file : contents.files) {
        const auto text = read_source(file.path);
        if (text && !names_any(*text, formats)) continue;
        if (text)
            add_document(contents, *text, file);
        else
            contents.faults.insert(contents.faults.end(), text.error().begin(), text.error().end());
    }
    settle_points(contents);
    settle_scenarios(contents);
    keep_last(contents.tables);
    keep_last(contents.jurisdictions);
    settle_rules(contents);
    settle_outlines(contents);
    settle_jobs(contents);
    return contents;
}

base::Checked<Contents> load_contents(const std::vector<std::string>& roots) {
    auto files = find_sources(roots);
    if (!files) return tl::unexpected<base::Faults>{files.error()};
    return load_contents(std::move(*files));
}

base::Checked<std::vector<Jurisdiction>> load_jurisdictions(const std::vector<std::string>& roots) {
    auto files = find_sources(roots);
    if (!files) return tl::unexpected<base::Faults>{files.error()};
    auto contents = load_contents(std::move(*files), {kJurisdictionFormat});
    if (base::any_errors(contents.faults)) return tl::unexpected<base::Faults>{std::move(contents.faults)};
    return std::move(contents.jurisdictions);
}

base::Checked<std::vector<Outline>> load_outlines(const std::vector<SourceFile>& files) {
    auto contents = load_contents(files, {kOutlineFormat});
    if (base::any_errors(contents.faults)) return tl::unexpected<base::Faults>{std::move(contents.faults)};
    return std::move(contents.outlines);
}

base::Checked<std::vector<Outline>> load_outlines(const std::vector<std::string>& roots) {
    const auto files = find_sources(roots);
    if (!files) return tl::unexpected<base::Faults>{files.error()};
    return load_outlines(*files);
}

}  // namespace content

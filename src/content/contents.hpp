#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/fault.hpp"
#include "content/deck.hpp"
#include "content/figure.hpp"
#include "content/job.hpp"
#include "content/originality.hpp"
#include "content/outline.hpp"
#include "content/source.hpp"
#include "trade/rules/rule.hpp"
#include "trade/rules/vocabulary.hpp"
#include "trade/table.hpp"

namespace content {

/// Everything in the content files, read in full. A point, scenario, table, rule, jurisdiction, outline or job of a
/// later root takes the place of one with the same id in an earlier root.
struct Contents {
    Contents() : vocabulary{std::make_shared<const trade::Vocabulary>()} {}

    std::vector<SourceFile> files;
    std::vector<Deck> decks;
    std::vector<ScenarioFamily> families;
    std::vector<trade::Table> tables;
    std::vector<Jurisdiction> jurisdictions;
    std::shared_ptr<const trade::Vocabulary> vocabulary;  ///< of the rules; empty when no file has it, never null
    std::vector<trade::Rule> rules;
    std::vector<DeclaredChange> changes;  ///< what differs from edition to edition, as the change lists have it
    std::vector<Figure> figures;          ///< that the numbers on cards are held against
    std::vector<Reading> readings;        ///< of second readers, all roots
    std::vector<Outline> outlines;        ///< of exams
    std::vector<Job> jobs;                ///< that a shop does, and what bears on them
    std::vector<StockPhrase> stock;       ///< phrases that are no sign of copying, of all roots
    base::Faults faults;                  ///< everything found wrong while reading, warnings among it

    [[nodiscard]] const Point* point(const base::PointId& id) const;
    [[nodiscard]] const trade::Table* table(const std::string& id) const;
};

/// Reads every file below the roots; faults of all files are gathered, none stops the reading of another.
/// Errors: only a root that is no content folder.
[[nodiscard]] base::Checked<Contents> load_contents(const std::vector<std::string>& roots);
[[nodiscard]] Contents load_contents(std::vector<SourceFile> files);

/// The same, but only of the files that name one of these formats, wherever they lie: the others are not parsed.
[[nodiscard]] Contents load_contents(std::vector<SourceFile> files, const std::vector<std::string_view>& formats);
/// The jurisdictions alone. Errors: a root that is no content folder, faults in a file of jurisdictions.
[[nodiscard]] base::Checked<std::vector<Jurisdiction>> load_jurisdictions(const std::vector<std::string>& roots);
/// The exam outlines alone, sorted by id. Errors: a root that is no content folder, faults in a file of outlines.
[[nodiscard]] base::Checked<std::vector<Outline>> load_outlines(const std::vector<std::string>& roots);
[[nodiscard]] base::Checked<std::vector<Outline>> load_outlines(const std::vector<SourceFile>& files);

/// Checks one document given as text, as if it were a file of that name.
void add_document(Contents& contents, const std::string& text, const SourceFile& file);

}  // namespace content

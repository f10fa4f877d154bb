#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "base/fault.hpp"
#include "content/contents.hpp"
#include "trade/rules/book.hpp"
#include "trade/tables.hpp"

namespace content {

/// What the trade engine needs of the content: tables, protection rules, jurisdictions.
/// Books are made when first asked for and kept. Not for several threads at once.
class TradeData {
public:
    /// Errors  cells, facts and results that make no sense, in any edition, and amendments that do not fit.
    static base::Checked<TradeData> make(const Contents& contents);

    [[nodiscard]] const trade::Tables& tables() const { return tables_; }
    [[nodiscard]] const trade::Vocabulary& vocabulary() const { return *vocabulary_; }
    [[nodiscard]] const std::vector<trade::Rule>& rules() const { return rules_; }
    [[nodiscard]] const std::vector<trade::Table>& raw_tables() const { return raw_tables_; }
    [[nodiscard]] const std::vector<Jurisdiction>& jurisdictions() const { return jurisdictions_; }
    /// Null when there is none of that id.
    [[nodiscard]] const Jurisdiction* jurisdiction(const std::string& id) const;

    /// The rules of an edition; with a jurisdiction (may be empty) its amendments as they stand on a day
    /// ("2026-11-25"; empty: all of them).
    [[nodiscard]] const trade::RuleBook& book(trade::Edition edition, const std::string& jurisdiction = {},
                                              const std::string& day = {}) const;
    /// The same rules before they are compiled, for listing and comparing.
    [[nodiscard]] std::vector<trade::Rule> rules_for(trade::Edition edition, const std::string& jurisdiction,
                                                     const std::string& day) const;

private:
    trade::Tables tables_;
    std::shared_ptr<const trade::Vocabulary> vocabulary_;
    std::vector<trade::Rule> rules_;
    std::vector<trade::Table> raw_tables_;
    std::vector<Jurisdiction> jurisdictions_;
    mutable std::map<std::string, trade::RuleBook> books_;
};

/// Reads only the tables, rules and jurisdictions below the roots, told by their formats.
[[nodiscard]] base::Checked<TradeData> load_trade_data(const std::vector<std::string>& roots);
/// The same from files already found.
[[nodiscard]] base::Checked<TradeData> load_trade_data(const std::vector<SourceFile>& files);

}  // namespace content

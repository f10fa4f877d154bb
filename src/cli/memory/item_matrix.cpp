#include "cli/memory/item_matrix.hpp"

#include <charconv>

#include "base/csv.hpp"
#include "base/text.hpp"

namespace cli {
namespace {

using base::CsvRow;
using base::Faults;

constexpr std::uint32_t kMostAlike = 1'000'000;

class Matrix {
public:
    explicit Matrix(const std::string& file) : file_{&file} {}

    void head(const CsvRow& row) {
        for (const auto& name : row.cells) {
            columns_.push_back(name == "id" || name == "learner" ? Column::name
                               : name == "count"                 ? Column::count
                                                                 : Column::item);
            if (columns_.back() == Column::item) log_.items.push_back({{name}, {}, {}, {}});
        }
        log_.keys.resize(log_.items.size());
    }

    void learner(const CsvRow& row) {
        if (row.cells.size() != columns_.size()) {
            fault(
                row,
                "has " + std::to_string(row.cells.size()) + " cells, the first line " + std::to_string(columns_.size()),
                "give each question its cell, empty where it was not asked");
            return;
        }
        std::vector<memory::ItemAnswer> answers;
        std::uint32_t alike = 1;
        std::uint32_t item = 0;
        for (std::size_t n = 0; n < columns_.size(); ++n) {
            if (columns_[n] == Column::count) alike = count(row, row.cells[n]);
            if (columns_[n] == Column::item) cell(row, row.cells[n], item++, answers);
        }
        for (std::uint32_t k = 0; k < alike; ++k, ++log_.learners)
            for (auto answer : answers) {
                answer.learner = static_cast<std::uint32_t>(log_.learners);
                log_.answers.push_back(answer);
            }
    }

    base::Checked<practice::ItemLog> taken() {
        if (log_.learners == 0 && faults_.empty())
            faults_.push_back({*file_, "", 1, "there is no row of answers",
                               "a line of question names, then a line for each learner"});
        if (!faults_.empty()) return tl::unexpected<Faults>{faults_};
        return std::move(log_);
    }

private:
    enum class Column : std::uint8_t { item, name, count };

    void cell(const CsvRow& row, const std::string& cell, std::uint32_t item,
              std::vector<memory::ItemAnswer>& answers) {
        const auto text = base::trim(cell);
        if (text.empty() || text == "NA") return;
        if (text != "0" && text != "1")
            fault(row, "'" + std::string{text} + "' under " + log_.items[item].id.text + " is no answer",
                  "write 1 for right, 0 for wrong, nothing for not asked");
        answers.push_back({0, item, text == "1" ? 1.0 : 0.0, -1, 0});
    }

    std::uint32_t count(const CsvRow& row, const std::string& cell) {
        std::uint32_t number = 0;
        const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), number);
        if (error == std::errc{} && end == cell.data() + cell.size() && number <= kMostAlike) return number;
        fault(row, "'" + cell + "' is no count", "write how many learners answered so, a million at most");
        return 0;
    }

    void fault(const CsvRow& row, std::string what, std::string mend) {
        faults_.push_back({*file_, "", row.line, std::move(what), std::move(mend)});
    }

    const std::string* file_;
    std::vector<Column> columns_;
    practice::ItemLog log_;
    Faults faults_;
};

}  // namespace

base::Checked<practice::ItemLog> read_item_matrix(const std::string& text, const std::string& file) {
    const auto rows = base::parse_csv(text, file);
    if (!rows) return tl::unexpected<Faults>{rows.error()};
    Matrix matrix{file};
    for (std::size_t n = 0; n < rows->size(); ++n) n == 0 ? matrix.head((*rows)[n]) : matrix.learner((*rows)[n]);
    return matrix.taken();
}

}  // namespace cli

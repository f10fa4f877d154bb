#include "base/csv.hpp"

#include <algorithm>
#include <charconv>

namespace base {
namespace {

constexpr std::string_view kMark = "\xEF\xBB\xBF";

class CsvText {
public:
    CsvText(std::string_view text, const std::string& file) : text_{text}, file_{&file} {
        if (text_.starts_with(kMark)) at_ = kMark.size();
    }

    Checked<std::vector<CsvRow>> rows() {
        std::vector<CsvRow> rows;
        while (at_ < text_.size()) {
            CsvRow row{line_, {}};
            do row.cells.push_back(cell());
            while (faults_.empty() && take(','));
            if (!faults_.empty()) return tl::unexpected<Faults>{faults_};
            end_line();
            if (row.cells.size() > 1 || !row.cells.front().empty()) rows.push_back(std::move(row));
        }
        return rows;
    }

private:
    bool take(char wanted) {
        if (at_ >= text_.size() || text_[at_] != wanted) return false;
        ++at_;
        return true;
    }
    void end_line() {
        take('\r');
        if (take('\n')) ++line_;
    }
    std::string cell() { return take('"') ? quoted() : plain(); }

    std::string plain() {
        const auto end = std::min(text_.find_first_of(",\r\n\"", at_), text_.size());
        std::string cell{text_.substr(at_, end - at_)};
        at_ = end;
        if (at_ < text_.size() && text_[at_] == '"')
            fault(line_, "a quote stands inside a cell", "put the whole cell in quotes, and double those inside it");
        return cell;
    }
    std::string quoted() {
        const int begun = line_;
        std::string cell;
        while (at_ < text_.size()) {
            const char c = text_[at_++];
            if (c == '\n') ++line_;
            if (c != '"') {
                cell += c;
            } else if (!take('"')) {
                if (at_ < text_.size() && text_.find_first_of(",\r\n", at_) != at_)
                    fault(line_, "something follows a closed quote", "put a comma, or double the quote");
                return cell;
            } else {
                cell += '"';
            }
        }
        fault(begun, "a quote is never closed", "close it at the end of the cell");
        return cell;
    }
    void fault(int line, std::string what, std::string mend) {
        faults_.push_back({*file_, "", line, std::move(what), std::move(mend)});
    }

    std::string_view text_;
    const std::string* file_;
    std::size_t at_ = 0;
    int line_ = 1;
    Faults faults_;
};

bool is_number(std::string_view text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc{} && end == text.data() + text.size();
}

}  // namespace

Checked<std::vector<CsvRow>> parse_csv(std::string_view text, const std::string& file) {
    return CsvText{text, file}.rows();
}

std::string csv_cell(std::string_view text) {
    std::string cell{text};
    const bool looks_like_formula =
        !cell.empty() && std::string_view{"=+-@\t\r"}.find(cell.front()) != std::string::npos;
    if (looks_like_formula && !is_number(text)) cell.insert(0, 1, '\'');
    if (cell.find_first_of(",\"\r\n") == std::string::npos) return cell;
    std::string quoted = "\"";
    for (const char c : cell) quoted += c == '"' ? std::string{"\"\""} : std::string(1, c);
    return quoted + '"';
}

std::string csv_line(const std::vector<std::string>& cells) {
    std::string line;
    for (std::size_t n = 0; n < cells.size(); ++n) line += (n == 0 ? "" : ",") + csv_cell(cells[n]);
    return line + "\r\n";
}

}  // namespace base

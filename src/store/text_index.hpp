#pragma once

#include <memory>
#include <string>
#include <vector>

namespace store {

/// Something that can be found by its words.
struct TextRow {
    std::string key, title, body, labels;
};

/// A full-text index held in memory for one search (SQLite FTS5). Titles weigh most, then labels, then the body.
class TextIndex {
public:
    explicit TextIndex(const std::vector<TextRow>& rows);
    ~TextIndex();
    TextIndex(const TextIndex&) = delete;
    TextIndex& operator=(const TextIndex&) = delete;

    /// Keys of the rows that hold all the words (as beginnings of words), best first; when no row holds all, of those
    /// that hold any. At most `most`.
    [[nodiscard]] std::vector<std::string> search(const std::vector<std::string>& words, std::size_t most) const;

private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

}  // namespace store

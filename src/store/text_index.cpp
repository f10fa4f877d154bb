#include "store/text_index.hpp"

#include "store/sqlite/db.hpp"

namespace store {
namespace {

/// Each word quoted, so that nothing typed is read as search syntax, and open at its end.
std::string query_of(const std::vector<std::string>& words, const char* between) {
    std::string query;
    for (const auto& word : words) {
        if (!query.empty()) query += between;
        query += '"';
        for (const char c : word) query += c == '"' ? std::string{"\"\""} : std::string(1, c);
        query += "\"*";
    }
    return query;
}

}  // namespace

struct TextIndex::Inside {
    sqlite::Db db{":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_MEMORY};
};

TextIndex::TextIndex(const std::vector<TextRow>& rows) : inside_{std::make_unique<Inside>()} {
    auto& db = inside_->db;
    db.run(
        "CREATE VIRTUAL TABLE found USING fts5(key UNINDEXED, title, labels, body, "
        "tokenize = 'porter unicode61 remove_diacritics 2')");
    sqlite::Writing writing{db};
    auto insert = db.prepare("INSERT INTO found(key, title, labels, body) VALUES (?1, ?2, ?3, ?4)");
    for (const auto& row : rows) {
        insert.bind(1, row.key);
        insert.bind(2, row.title);
        insert.bind(3, row.labels);
        insert.bind(4, row.body);
        insert.run();
    }
    writing.commit();
}

TextIndex::~TextIndex() = default;

std::vector<std::string> TextIndex::search(const std::vector<std::string>& words, std::size_t most) const {
    std::vector<std::string> keys;
    if (words.empty()) return keys;
    auto rows = inside_->db.prepare(
        "SELECT key FROM found WHERE found MATCH ?1 ORDER BY bm25(found, 0.0, 8.0, 4.0, 1.0), key LIMIT ?2");
    for (const char* between : {" AND ", " OR "}) {
        rows.bind(1, query_of(words, between));
        rows.bind(2, static_cast<std::int64_t>(most));
        while (rows.step()) keys.push_back(rows.text(0));
        rows.reset();
        if (!keys.empty()) break;
    }
    return keys;
}

}  // namespace store

// The least a command that reads the store can do: start, open the database, one indexed read, print a line.
#include <cstdio>

#include <sqlite3.h>

int main(int argc, char** argv) {
    sqlite3* db = nullptr;
    if (argc < 2 || sqlite3_open_v2(argv[1], &db, SQLITE_OPEN_READWRITE, nullptr) != SQLITE_OK) return 1;
    sqlite3_stmt* read = nullptr;
    if (sqlite3_prepare_v2(
            db,
            "SELECT asked_at FROM answer WHERE learner = (SELECT id FROM learner LIMIT 1) ORDER BY point DESC LIMIT 1",
            -1, &read, nullptr) != SQLITE_OK)
        return 1;
    if (sqlite3_step(read) == SQLITE_ROW) std::printf("%lld\n", static_cast<long long>(sqlite3_column_int64(read, 0)));
    std::fflush(stdout);
    sqlite3_finalize(read);
    sqlite3_close(db);
    return 0;
}

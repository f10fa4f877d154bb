#pragma once

#include <map>

#include <sqlite3.h>

/// A disk that fails: SQLite's own way to files, with writes that stop working at a chosen one.
namespace stores {

class FaultyDisk {
public:
    enum class Syncs { real, skipped };

    /// Stands in for the disk of every file opened from now on, until it goes out of scope. With syncs skipped it is
    /// fast, for tests that pull no plug.
    explicit FaultyDisk(Syncs syncs = Syncs::real) {
        skips() = syncs == Syncs::skipped;
        plain() = sqlite3_vfs_find(nullptr);
        vfs_ = *plain();
        vfs_.zName = "faulty";
        vfs_.xOpen = open;
        sqlite3_vfs_register(&vfs_, 1);
        left() = kNever;
    }
    FaultyDisk(const FaultyDisk&) = delete;
    FaultyDisk& operator=(const FaultyDisk&) = delete;
    ~FaultyDisk() { sqlite3_vfs_unregister(&vfs_); }

    /// The n-th write, cut or sync from now on fails with this code, and so does every later one until mended.
    static void fail_at(int nth, int code) {
        left() = nth;
        fails_with() = code;
    }
    static void mend() { left() = kNever; }
    /// How many writes, cuts and syncs there were since fail_at(a large number).
    [[nodiscard]] static int left_of(int from) { return from - left(); }

private:
    static constexpr int kNever = 1 << 30;
    static sqlite3_vfs*& plain() {
        static sqlite3_vfs* kept = nullptr;
        return kept;
    }
    static int& left() {
        static int kept = kNever;
        return kept;
    }
    static bool& skips() {
        static bool kept = false;
        return kept;
    }
    static int& fails_with() {
        static int kept = SQLITE_FULL;
        return kept;
    }
    static bool fails() {
        if (left() > 0) --left();
        return left() == 0;
    }
    /// A file's own ways, with ours laid over some of them.
    struct Methods : sqlite3_io_methods {
        const sqlite3_io_methods* plain = nullptr;
    };
    static const sqlite3_io_methods* plain_of(sqlite3_file* file) {
        return static_cast<const Methods*>(file->pMethods)->plain;
    }
    static int write(sqlite3_file* file, const void* bytes, int count, sqlite3_int64 at) {
        return fails() ? fails_with() : plain_of(file)->xWrite(file, bytes, count, at);
    }
    static int truncate(sqlite3_file* file, sqlite3_int64 size) {
        return fails() ? fails_with() : plain_of(file)->xTruncate(file, size);
    }
    static int sync(sqlite3_file* file, int flags) {
        if (fails()) return fails_with();
        return skips() ? SQLITE_OK : plain_of(file)->xSync(file, flags);
    }
    /// Databases lock their files and logs do not, so there is more than one set of ways.
    static const Methods* laid_over(const sqlite3_io_methods* plain) {
        static std::map<const sqlite3_io_methods*, Methods> kept;
        Methods& methods = kept[plain];
        static_cast<sqlite3_io_methods&>(methods) = *plain;
        methods.plain = plain;
        methods.xWrite = write;
        methods.xTruncate = truncate;
        methods.xSync = sync;
        return &methods;
    }
    static int open(sqlite3_vfs* /*vfs*/, const char* name, sqlite3_file* file, int flags, int* out) {
        const int code = plain()->xOpen(plain(), name, file, flags, out);
        if (file->pMethods != nullptr) file->pMethods = laid_over(file->pMethods);
        return code;
    }

    sqlite3_vfs vfs_{};
};

}  // namespace stores

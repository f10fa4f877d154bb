#pragma once

#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "base/ids.hpp"
#include "cli/context.hpp"
#include "practice/exam/result.hpp"
#include "practice/exam/sitting.hpp"
#include "report/exam/sitting_json.hpp"

namespace cli {

/// The lines of one sitting in the data home, only ever added to (docs/formats/sitting.md).
/// Held for this process alone while it is open. Throws Failure: cannot_write, io_error (disk full or failing), busy
/// (another process sits the same exam).
class SittingFile {
public:
    /// Makes the file, with what was settled before the clock starts as its first line.
    static SittingFile begin(const Context& context, const practice::SittingFor& what);
    /// Opens one that is there, and cuts off a last line that has no end.
    explicit SittingFile(std::string path);
    SittingFile(SittingFile&& other) noexcept;
    SittingFile& operator=(SittingFile&&) = delete;
    SittingFile(const SittingFile&) = delete;
    SittingFile& operator=(const SittingFile&) = delete;
    ~SittingFile();

    /// Durable when this returns.
    void add(const practice::SittingEvent& event) { add_line(report::to_line(event)); }

private:
    SittingFile(std::string path, int flags);
    void add_line(const std::string& line);

    std::string path_;
    int file_ = -1;
};

/// A sitting that has no result yet.
struct OpenSitting {
    std::string path;
    report::KeptSitting kept;
};

/// The learner's earliest sitting without a result, if there is one.
/// Throws Failure (bad_data) for a file that cannot be read, after telling where.
[[nodiscard]] std::optional<OpenSitting> open_sitting(const Context& context, const base::Id128& learner);

/// Keeps the result beside the sitting's lines, which closes it.
void keep_result(const Context& context, const practice::Sitting& sitting, const content::Outline& outline,
                 const practice::SittingResult& result);

/// The results of a learner's sittings as they were kept, the earliest first.
/// Throws Failure (bad_data) for a result that cannot be read.
[[nodiscard]] std::vector<nlohmann::ordered_json> kept_results(const Context& context, const base::Id128& learner);

/// Takes a sitting out of the way without a result; its lines stay, under the name given back.
[[nodiscard]] std::string set_aside(const OpenSitting& open);

}  // namespace cli

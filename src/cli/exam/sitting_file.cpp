#include "cli/exam/sitting_file.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <ostream>
#include <system_error>
#include <utility>
#include <vector>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>
#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/whole_file.hpp"
#include "content/source.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
namespace fs = std::filesystem;

constexpr const char* kLines = ".jsonl";
constexpr const char* kResult = ".result.json";

std::string folder_of(const Context& context) {
    return context.home_path() + "/exams";
}

std::string result_path(const std::string& lines) {
    return lines.substr(0, lines.size() - std::strlen(kLines)) + kResult;
}

std::string text_of(const std::string& path) {
    const auto text = content::read_source(path);
    if (text) return *text;
    throw Failure{Exit::bad_data, base::to_text(text.error().front()), "see that the file can be read"};
}

[[noreturn]] void fail_to_write(const std::string& path, int error) {
    throw Failure{Exit::io_error, path + ": " + std::strerror(error),
                  "what was told as kept is kept; see to the disk and go on with 'greentag exam sit'"};
}

/// A new name in a folder is lost with the power unless the folder is written too.
void settle_folder(const std::string& folder) {
    const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (handle < 0) return;
    ::fsync(handle);
    ::close(handle);
}

}  // namespace

SittingFile::SittingFile(std::string path, int flags) : path_{std::move(path)} {
    constexpr mode_t kOwnerOnly = 0600;
    file_ = ::open(path_.c_str(), O_WRONLY | O_APPEND | O_CLOEXEC | flags, kOwnerOnly);
    if (file_ < 0) throw Failure{Exit::cannot_write, path_ + ": " + std::strerror(errno), "check the data home"};
    if (::flock(file_, LOCK_EX | LOCK_NB) == 0) return;
    ::close(std::exchange(file_, -1));
    throw Failure{Exit::busy, "this exam is being sat in another window", "go on there, or close it first"};
}

SittingFile SittingFile::begin(const Context& context, const practice::SittingFor& what) {
    const std::string folder = folder_of(context);
    std::error_code error;
    fs::create_directories(folder, error);
    SittingFile file{folder + "/" + base::to_text(what.id) + kLines, O_CREAT | O_EXCL};
    file.add_line(report::to_line(what));
    settle_folder(folder);
    return file;
}

SittingFile::SittingFile(std::string path) : SittingFile{std::move(path), 0} {
    const std::string text = text_of(path_);
    const auto last = text.rfind('\n');
    const std::size_t whole = last == std::string::npos ? 0 : last + 1;
    if (whole < text.size() && ::ftruncate(file_, static_cast<off_t>(whole)) != 0) fail_to_write(path_, errno);
}

SittingFile::SittingFile(SittingFile&& other) noexcept
    : path_{std::move(other.path_)}, file_{std::exchange(other.file_, -1)} {}

SittingFile::~SittingFile() {
    if (file_ >= 0) ::close(file_);
}

void SittingFile::add_line(const std::string& line) {
    const std::string whole = line + '\n';
    for (std::size_t at = 0; at < whole.size();) {
        const auto written = ::write(file_, whole.data() + at, whole.size() - at);
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) fail_to_write(path_, errno);
        at += static_cast<std::size_t>(written);
    }
    if (::fdatasync(file_) != 0) fail_to_write(path_, errno);
}

std::optional<OpenSitting> open_sitting(const Context& context, const base::Id128& learner) {
    std::vector<std::string> paths;
    std::error_code error;
    for (const auto& entry : fs::directory_iterator{folder_of(context), error}) {
        const std::string path = entry.path().string();
        if (entry.path().extension() == kLines && !fs::exists(result_path(path))) paths.push_back(path);
    }
    // Names are ids that rise with time.
    std::sort(paths.begin(), paths.end());
    for (const auto& path : paths) {
        const std::string text = text_of(path);
        if (text.find('\n') == std::string::npos) continue;  // its clock had not started when the machine stopped
        auto kept = report::read_sitting(text, path);
        if (!kept) {
            tell(context.err(), kept.error());
            throw Failure{Exit::bad_data, "an exam that was begun cannot be read",
                          "mend the lines named, or move " + path + " elsewhere"};
        }
        if (kept->what.learner == learner) return OpenSitting{path, std::move(*kept)};
    }
    return std::nullopt;
}

void keep_result(const Context& context, const practice::Sitting& sitting, const content::Outline& outline,
                 const practice::SittingResult& result) {
    const std::string path = folder_of(context) + "/" + base::to_text(sitting.what().id) + kResult;
    write_whole(path, [&](std::ostream& out) { out << report::result_json(sitting, outline, result).dump(2) << '\n'; });
    settle_folder(folder_of(context));
}

std::vector<nlohmann::ordered_json> kept_results(const Context& context, const base::Id128& learner) {
    std::vector<std::string> paths;
    std::error_code error;
    for (const auto& entry : fs::directory_iterator{folder_of(context), error})
        if (entry.path().extension() == kLines && fs::exists(result_path(entry.path().string())))
            paths.push_back(entry.path().string());
    std::sort(paths.begin(), paths.end());
    std::vector<nlohmann::ordered_json> results;
    for (const auto& path : paths) {
        const auto kept = report::read_sitting(text_of(path), path);
        if (!kept || kept->what.learner != learner) continue;
        results.push_back(nlohmann::ordered_json::parse(text_of(result_path(path)), nullptr, false));
        if (!results.back().is_object())
            throw Failure{Exit::bad_data, result_path(path) + ": is no JSON object",
                          "take it out of the way: 'greentag exam sit' then works the result out again"};
    }
    return results;
}

std::string set_aside(const OpenSitting& open) {
    const SittingFile held{open.path};
    std::string aside = open.path + ".set-aside";
    std::error_code error;
    fs::rename(open.path, aside, error);
    if (error) throw Failure{Exit::cannot_write, open.path + ": " + error.message(), "check the data home"};
    return aside;
}

}  // namespace cli

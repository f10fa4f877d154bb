#include "cli/whole_file.hpp"

#include <filesystem>
#include <fstream>
#include <system_error>

#include "base/exit_status.hpp"

namespace cli {

using base::Exit;
using base::Failure;
namespace fs = std::filesystem;

void write_whole(const std::string& path, const std::function<void(std::ostream&)>& write) {
    const std::string aside = path + ".part";
    std::error_code error;
    {
        std::ofstream out{aside, std::ios::binary | std::ios::trunc};
        if (!out)
            throw Failure{Exit::cannot_write, path + ": no file can be made there",
                          "check the folder, or name another"};
        write(out);
        out.close();
        if (!out) {
            fs::remove(aside, error);
            throw Failure{Exit::io_error, path + ": could not be written whole; nothing was left behind",
                          "is the disk full?"};
        }
    }
    fs::rename(aside, path, error);
    if (!error) return;
    const std::string why = error.message();
    fs::remove(aside, error);
    throw Failure{Exit::cannot_write, path + ": " + why, "check the folder, or name another"};
}

}  // namespace cli

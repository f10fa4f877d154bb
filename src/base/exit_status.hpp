#pragma once

#include <stdexcept>
#include <string>

namespace base {

/// What the program tells its caller when it ends. Values above 1 are those of sysexits.h.
enum class Exit : int {
    fine = 0,
    problems = 1,       ///< the check that was asked for found something
    usage = 64,         ///< the command line makes no sense
    bad_data = 65,      ///< a file was read and is wrong
    no_input = 66,      ///< a file, learner or point that was named is not there
    unavailable = 69,   ///< something the verb needs is missing on this machine
    internal = 70,      ///< a broken promise inside the program
    cannot_write = 73,  ///< an output could not be made
    io_error = 74,      ///< reading or writing failed half way
    busy = 75,          ///< another process holds the store; trying again may work
};

/// A failure that ends a verb: what happened, the way out, and the status to leave with.
/// Thrown where the world fails us (disk, store, terminal); bad input is returned as faults instead.
class Failure : public std::runtime_error {
public:
    Failure(Exit status, const std::string& what, std::string mend)
        : std::runtime_error{what}, status_{status}, mend_{std::move(mend)} {}

    [[nodiscard]] Exit status() const noexcept { return status_; }
    [[nodiscard]] const std::string& mend() const noexcept { return mend_; }

private:
    Exit status_;
    std::string mend_;
};

}  // namespace base

#include <doctest/doctest.h>

#include <cstdlib>
#include <string>

TEST_CASE("end: the version is told and success reported") {
    const std::string command = std::string{GREENTAG_BINARY} + " --version > /dev/null";
    CHECK(std::system(command.c_str()) == 0);
}

// Reads an exchange document and prints its export, for the check of the schemas.
#include "evidence-core/exchange/plan_import.h"
#include "evidence-core/exchange/write_document.h"

#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

int main(int count, char** arguments) {
    if (count != 2) return 2;
    std::ifstream in(arguments[1], std::ios::binary);
    const std::string text(std::istreambuf_iterator<char>(in), {});
    const auto reg = evidence::exchange::readRegister(text);
    if (!reg) {
        std::cerr << reg.error().place << ": " << reg.error().help << '\n';
        return 3;
    }
    std::cout << evidence::exchange::writeDocument(*reg);
    return 0;
}

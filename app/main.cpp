#include <iostream>

#include "app/command/verb.h"

int main(int argc, char** argv) {
    return app::command::run(argc, argv, std::cout, std::cerr);
}

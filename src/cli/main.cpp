#include "app.hpp"

int main(int argc, char** argv) { return areo::cli::run_app(argc, argv); }

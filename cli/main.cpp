#include "cli/run.h"

int main(int argc, char** argv) {
  return heatwork::cli::run({argv + 1, argv + argc});
}

// right: Grams
// wrong: double
// says: conversion|could not convert|cannot convert
// A number does not become grams by itself.
#include "huewright/base/units.h"

using namespace hw;

Grams weigh(HW_TOKEN given) {
  Grams weighed = given;
  return weighed;
}

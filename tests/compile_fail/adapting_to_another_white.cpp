// right: D50
// wrong: D55
// says: conversion|could not convert|cannot convert
// The target of an adaptation is part of its result.
#include "huewright/colour/adaptation.h"

using namespace hw::colour;

Xyz<D50, Deg2> for_print(const Xyz<D65, Deg2>& seen) {
  return adapt<HW_TOKEN>(seen);
}

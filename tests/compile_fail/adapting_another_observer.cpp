// right: Deg2
// wrong: Deg10
// says: conversion|could not convert|cannot convert
// Adaptation changes the white, never the observer.
#include "huewright/colour/adaptation.h"

using namespace hw::colour;

Xyz<D50, HW_TOKEN> for_print(const Xyz<D65, Deg2>& seen) {
  return adapt<D50>(seen);
}

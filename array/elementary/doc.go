// Package elementary has Exp and Pow with the same digits wherever the program runs.
//
// [math.Exp] is assembly on some processors, with fused products where the processor
// has them, and portable Go elsewhere, as in WebAssembly; the last bits differ. [math.Pow],
// [math.Erf], [math.Erfc] and [math.Gamma] above 33 call it. Of the rest of package math,
// Sqrt, Floor, Ldexp and the like are exact everywhere, and Log, Log1p, Expm1, Log10,
// Hypot and Lgamma came out bit for bit alike on amd64, with fused products and without,
// and in WebAssembly, over two million arguments each.
//
// A compiler may still fuse a product and a sum that stand in one expression: Go's does
// so for arm64, ppc64, riscv64 and s390x, and for amd64 where GOAMD64=v3 is set, and there
// the last bits of any program's sums may differ. It does not for amd64 else, 386 and
// wasm.
package elementary

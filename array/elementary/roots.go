package elementary

// roots are 2^(j/32), each as the nearest number and the one nearest to what that leaves
// out. They stand here, and the tests work them out: that takes a program in a page
// longer than many a start can wait.
var roots = [32]struct{ high, low float64 }{
	{0x1p+00, 0x0p+00},
	{0x1.059b0d3158574p+00, 0x1.d73e2a475b465p-55},
	{0x1.0b5586cf9890fp+00, 0x1.8a62e4adc610bp-54},
	{0x1.11301d0125b51p+00, -0x1.6c51039449b3ap-54},
	{0x1.172b83c7d517bp+00, -0x1.19041b9d78a76p-55},
	{0x1.1d4873168b9aap+00, 0x1.e016e00a2643cp-54},
	{0x1.2387a6e756238p+00, 0x1.9b07eb6c70573p-54},
	{0x1.29e9df51fdee1p+00, 0x1.612e8afad1255p-55},
	{0x1.306fe0a31b715p+00, 0x1.6f46ad23182e4p-55},
	{0x1.371a7373aa9cbp+00, -0x1.63aeabf42eae2p-54},
	{0x1.3dea64c123422p+00, 0x1.ada0911f09ebcp-55},
	{0x1.44e086061892dp+00, 0x1.89b7a04ef80dp-59},
	{0x1.4bfdad5362a27p+00, 0x1.d4397afec42e2p-56},
	{0x1.5342b569d4f82p+00, -0x1.07abe1db13cadp-55},
	{0x1.5ab07dd485429p+00, 0x1.6324c054647adp-54},
	{0x1.6247eb03a5585p+00, -0x1.383c17e40b497p-54},
	{0x1.6a09e667f3bcdp+00, -0x1.bdd3413b26456p-54},
	{0x1.71f75e8ec5f74p+00, -0x1.16e4786887a99p-55},
	{0x1.7a11473eb0187p+00, -0x1.41577ee04992fp-55},
	{0x1.82589994cce13p+00, -0x1.d4c1dd41532d8p-54},
	{0x1.8ace5422aa0dbp+00, 0x1.6e9f156864b27p-54},
	{0x1.93737b0cdc5e5p+00, -0x1.75fc781b57ebcp-57},
	{0x1.9c49182a3f09p+00, 0x1.c7c46b071f2bep-56},
	{0x1.a5503b23e255dp+00, -0x1.d2f6edb8d41e1p-54},
	{0x1.ae89f995ad3adp+00, 0x1.7a1cd345dcc81p-54},
	{0x1.b7f76f2fb5e47p+00, -0x1.5584f7e54ac3bp-56},
	{0x1.c199bdd85529cp+00, 0x1.11065895048ddp-55},
	{0x1.cb720dcef9069p+00, 0x1.503cbd1e949dbp-56},
	{0x1.d5818dcfba487p+00, 0x1.2ed02d75b3707p-55},
	{0x1.dfc97337b9b5fp+00, -0x1.1a5cd4f184b5cp-54},
	{0x1.ea4afa2a490dap+00, -0x1.e9c23179c2893p-54},
	{0x1.f50765b6e454p+00, 0x1.9d3e12dd8a18bp-54},
}

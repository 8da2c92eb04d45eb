module arrayodds

go 1.26.8

namespace Athwart.Recordings;

/// <summary>The kind of file around the samples.</summary>
public enum ContainerKind
{
    /// <summary>RIFF WAVE, up to 4 GiB.</summary>
    Wave = 0,

    /// <summary>RF64, the 64-bit WAVE of EBU Tech 3306.</summary>
    Rf64,

    /// <summary>BW64, the 64-bit WAVE of ITU-R BS.2088.</summary>
    Bw64,

    /// <summary>FLAC, read through the system's libsndfile.</summary>
    Flac,

    /// <summary>AIFF or AIFF-C, read through the system's libsndfile.</summary>
    Aiff,
}

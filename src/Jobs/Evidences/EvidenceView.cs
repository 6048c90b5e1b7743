namespace Athwart.Jobs.Evidences;

/// <summary>How the evidence of a finding is best seen.</summary>
internal enum EvidenceView
{
    /// <summary>Its numbers, as bars.</summary>
    Numbers = 0,

    /// <summary>Sample by sample.</summary>
    Samples,

    /// <summary>The decoded left and right, sample by sample.</summary>
    DecodedSamples,

    /// <summary>The waves of mid and side over time.</summary>
    Waves,

    /// <summary>The levels of mid and side over time.</summary>
    Levels,

    /// <summary>Level over time and frequency.</summary>
    Spectrogram,

    /// <summary>Level over frequency.</summary>
    Spectrum,

    /// <summary>The lowest frequencies closely.</summary>
    LowSpectrum,

    /// <summary>The numbers it carries for third octaves.</summary>
    Thirds,

    /// <summary>Left against right.</summary>
    Vector,

    /// <summary>Where the dominant sound was over time.</summary>
    Direction,

    /// <summary>Correlation of left and right over time.</summary>
    Correlation,

    /// <summary>How alike mid and side are by their delay.</summary>
    Lag,

    /// <summary>How often a sample has which value.</summary>
    Distribution,

    /// <summary>What lies where in the file.</summary>
    File,

    /// <summary>The takes it was checked with.</summary>
    Siblings,
}

/// <summary>Which kind of finding is seen how.</summary>
internal static class EvidenceViews
{
    /// <summary>The view of a kind; numbers for one that is not known here.</summary>
    public static EvidenceView Of(string kind) => kind switch
    {
        "full-scale-runs" or "flat-tops" or "float-overs" or "not-finite" or "click" or "dropout" or "repeated-block" or "missing-block" or "discontinuity" => EvidenceView.Samples,
        "decoded-overload" => EvidenceView.DecodedSamples,
        "digital-silence" or "silent-take" or "dead-channel" or "early-end" or "handling" or "voice-slate" or "one-channel" => EvidenceView.Waves,
        "level-jump" or "long-quiet" or "side-weak" or "side-strong" or "side-unlike-profile" => EvidenceView.Levels,
        "wind" or "rumble" or "sweeping-tone" => EvidenceView.Spectrogram,
        "tone" or "ultrasonic-tone" or "low-bandwidth" or "noisy-take" or "side-noise" => EvidenceView.Spectrum,
        "hum" => EvidenceView.LowSpectrum,
        "side-low-end" or "mono-loss" => EvidenceView.Thirds,
        "identical-channels" or "scaled-copy" or "already-decoded" or "roles-swapped" or "says-left-right" or "is-recorded-decode" => EvidenceView.Vector,
        "side-inverted" => EvidenceView.Direction,
        "low-correlation" or "out-of-phase" => EvidenceView.Correlation,
        "side-delay" or "side-late" => EvidenceView.Lag,
        "dc-offset" => EvidenceView.Distribution,
        "header-not-finished" or "cut-short" or "chunk-cut-short" or "partial-frame" or "odd-padding" or "trailing-bytes" or "second-data-chunk" or "size-wrapped" or "rf64-without-ds64"
            or "bext-unreadable" or "ixml-unreadable" or "metadata-too-large" or "header-disagrees" or "not-joined" => EvidenceView.File,
        "side-unlike-session" => EvidenceView.Siblings,
        _ => EvidenceView.Numbers,
    };
}

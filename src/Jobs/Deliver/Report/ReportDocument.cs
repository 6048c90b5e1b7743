using Athwart.Metering.Direction;
using Athwart.Metering.Portrait;
using Athwart.Quantities;

namespace Athwart.Jobs.Deliver.Report;

/// <summary>Everything a delivery's report says; plain data, no files are opened to write it.</summary>
public sealed record ReportDocument
{
    /// <summary>What the delivery is called.</summary>
    public required string Title { get; init; }

    /// <summary>The day of the delivery.</summary>
    public required DateOnly Date { get; init; }

    /// <summary>Who recorded it; empty leaves the line out.</summary>
    public string Recordist { get; init; } = "";

    /// <summary>The library it comes from; empty leaves the line out.</summary>
    public string Library { get; init; } = "";

    /// <summary>The sessions it comes from.</summary>
    public IReadOnlyList<string> Sessions { get; init; } = [];

    /// <summary>A paragraph for the client; empty leaves it out.</summary>
    public string Introduction { get; init; } = "";

    /// <summary>What to know before using the files, a sentence each.</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];

    /// <summary>How side levels and signs are meant, a sentence each.</summary>
    public IReadOnlyList<string> Conventions { get; init; } = ReportWords.Conventions;

    /// <summary>The effects, in the order they are shown.</summary>
    public IReadOnlyList<ReportEffect> Effects { get; init; } = [];

    /// <summary>The program and its version, for the last line; empty leaves it out.</summary>
    public string Program { get; init; } = "";
}

/// <summary>One delivered effect.</summary>
public sealed record ReportEffect
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What is heard; empty leaves it out.</summary>
    public string Description { get; init; } = "";

    /// <summary>Words to find it by.</summary>
    public IReadOnlyList<string> Keywords { get; init; } = [];

    /// <summary>Frames of the delivered stereo file.</summary>
    public required FrameCount Length { get; init; }

    /// <summary>Sample rate of the delivered stereo file.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>Its word, as people read it: '24-bit', '32-bit float'.</summary>
    public required string Word { get; init; }

    /// <summary>The side level it was decoded at; −∞ is mono.</summary>
    public required Decibels SideLevel { get; init; }

    /// <summary>What that means; null lets the report say it (<see cref="ReportWords.SideLevel"/>).</summary>
    public string? SideLevelMeaning { get; init; }

    /// <summary>The gain put on the decoded pair.</summary>
    public Decibels Trim { get; init; }

    /// <summary>What the trim was for, such as 'peak to −1 dBTP'; empty leaves it out.</summary>
    public string TrimReason { get; init; } = "";

    /// <summary>The stereo file relative to the report, with '/' between folders; null shows no player.</summary>
    public string? AuditionFile { get; init; }

    /// <summary>All files of the effect.</summary>
    public IReadOnlyList<ReportFile> Files { get; init; } = [];

    /// <summary>The numbers of the pictures; null shows none.</summary>
    public TakePortrait? Portrait { get; init; }

    /// <summary>Where the dominant sound was; null shows none.</summary>
    public DirectionTrail? Direction { get; init; }

    /// <summary>Loudness and peaks of the delivered stereo file; null shows none.</summary>
    public ReportLoudness? Loudness { get; init; }

    /// <summary>How it holds up in mono; null shows nothing.</summary>
    public ReportMono? Mono { get; init; }

    /// <summary>Findings of the take. Those that lie wholly outside the cut are left out; ranges are shown from the start of the cut.</summary>
    public IReadOnlyList<Finding> Findings { get; init; } = [];

    /// <summary>Where it was cut from; null shows nothing and takes finding ranges as counted from the start of the effect.</summary>
    public ReportSource? Source { get; init; }
}

/// <summary>One delivered file.</summary>
/// <param name="What">What it holds: 'Stereo', 'Mid/side pair', 'Mono', 'Recipe'.</param>
/// <param name="Path">Its path relative to the report, with '/' between folders.</param>
/// <param name="Sha256">Its hash in hexadecimal, of which the report shows the first twelve digits; empty for none.</param>
/// <param name="Detail">Format in a few words, such as '96 kHz, 24-bit, raw'; empty for none.</param>
public sealed record ReportFile(string What, string Path, string Sha256 = "", string Detail = "");

/// <summary>Loudness and peaks of a delivered stereo file; null is not measured.</summary>
public sealed record ReportLoudness
{
    /// <summary>Gated loudness of the whole.</summary>
    public Loudness? Integrated { get; init; }

    /// <summary>The loudest 400 ms.</summary>
    public Loudness? MaxMomentary { get; init; }

    /// <summary>The loudest 3 s.</summary>
    public Loudness? MaxShortTerm { get; init; }

    /// <summary>Loudness range in LU.</summary>
    public Decibels? Range { get; init; }

    /// <summary>The highest true peak of left and right, in dBTP.</summary>
    public DecibelsFullScale? TruePeak { get; init; }

    /// <summary>The highest sample of left and right.</summary>
    public DecibelsFullScale? SamplePeak { get; init; }
}

/// <summary>How an effect holds up where only one loudspeaker plays.</summary>
public sealed record ReportMono
{
    /// <summary>Loudness of the mono fold against the stereo, in LU; negative is softer. Null is not measured.</summary>
    public Decibels? FoldChange { get; init; }

    /// <summary>Correlation of left and right over the whole, −1 to 1.</summary>
    public double? Correlation { get; init; }

    /// <summary>The lowest correlation of any 400 ms.</summary>
    public double? WorstCorrelation { get; init; }

    /// <summary>Where in the effect that is, in seconds.</summary>
    public double? WorstAtSeconds { get; init; }
}

/// <summary>Where an effect was cut from.</summary>
/// <param name="Take">The take's name.</param>
/// <param name="Files">The names of its files.</param>
/// <param name="Cut">The cut in frames of the take.</param>
/// <param name="SampleRateHertz">The take's sample rate.</param>
/// <param name="Recorded">When it was recorded, as the file says; empty leaves it out.</param>
public sealed record ReportSource(string Take, IReadOnlyList<string> Files, FrameRange Cut, int SampleRateHertz, string Recorded = "");

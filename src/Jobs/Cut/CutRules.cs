using System.Text.Json.Serialization;

namespace Athwart.Jobs.Cut;

/// <summary>How the cuts of a session are found, named and treated: JSON, one rule a kind of take.</summary>
public sealed record CutRules
{
    /// <summary>What the file calls itself.</summary>
    public const string KindName = "athwart-cut-rules";

    /// <summary>The version this program writes and the highest it reads.</summary>
    public const int CurrentVersion = 1;

    /// <summary>Always 'athwart-cut-rules'.</summary>
    public string Kind { get; set; } = KindName;

    /// <summary>The version of the layout.</summary>
    public int Version { get; set; } = CurrentVersion;

    /// <summary>A name, for people.</summary>
    public string Name { get; set; } = "";

    /// <summary>A sentence about it, for people.</summary>
    public string Note { get; set; } = "";

    /// <summary>The rules; the first that fits a take is followed. A take that none fits is left alone.</summary>
    public IReadOnlyList<CutRule> Rules { get; set; } = [];

    /// <summary>One rule for every take: what stands out is cut, what does not is one long cut.</summary>
    public static CutRules Usual { get; } = new() { Name = "usual", Rules = [new()] };
}

/// <summary>One rule.</summary>
public sealed record CutRule
{
    /// <summary>Which takes: '*' stands for any letters; matched against the take's name, its scene and its note, whatever the case. Empty fits all.</summary>
    public string Take { get; set; } = "";

    /// <summary>How the cuts are found.</summary>
    public CutFinding Find { get; set; } = new();

    /// <summary>
    /// The cuts' name: {take}, {scene}, {label} (of the marker; else the scene, else the take), and {n}, {nn} or {nnn} for the number among cuts
    /// of that name. Without a number in it, cuts of one name get ' 01', ' 02'.
    /// </summary>
    public string Name { get; set; } = "{label}";

    /// <summary>What is done to them.</summary>
    public CutTreating Treat { get; set; } = new();

    /// <summary>Words to find them by.</summary>
    public IReadOnlyList<string> Tags { get; set; } = [];
}

/// <summary>How cuts are found.</summary>
public sealed record CutFinding
{
    /// <summary>What is looked for.</summary>
    public CutHow How { get; set; } = CutHow.Auto;

    /// <summary>What becomes of the markers a file carries.</summary>
    public CutMarkers Markers { get; set; } = CutMarkers.Cut;

    /// <summary>How far a sound rises over the floor, in decibels, 6 to 60.</summary>
    public double OnsetDecibels { get; set; } = 9;

    /// <summary>Sounds no further apart are one, seconds, 0 to 60.</summary>
    public double JoinSeconds { get; set; } = 0.25;

    /// <summary>Whether strikes that stand apart inside one sound become a row of cuts.</summary>
    public bool Rows { get; set; } = true;

    /// <summary>Shortest time between the strikes of a row, seconds.</summary>
    public double RowSeconds { get; set; } = 0.3;

    /// <summary>Shorter sounds are left out, seconds, 0 or more.</summary>
    public double LeastSeconds { get; set; }

    /// <summary>Kept before a sound, seconds, 0 to 60; never into the one before.</summary>
    public double BeforeSeconds { get; set; } = 0.02;

    /// <summary>Kept after a sound, seconds, 0 to 60; never into the next.</summary>
    public double AfterSeconds { get; set; } = 0.1;

    /// <summary>Whether a voice that announces the take is left out.</summary>
    public bool SkipSlate { get; set; } = true;

    /// <summary>In which order the cuts of one name are numbered.</summary>
    public CutOrder Order { get; set; }
}

/// <summary>What is done to cuts that are found.</summary>
public sealed record CutTreating
{
    /// <summary>Side level in decibels; null leaves it to the session or the delivery.</summary>
    public double? SideLevelDecibels { get; set; }

    /// <summary>The name of a treatment in the library; empty for none.</summary>
    public string Treatment { get; set; } = "";

    /// <summary>Fade at the start, seconds, 0 or more.</summary>
    public double FadeInSeconds { get; set; } = 0.005;

    /// <summary>Fade at the end, seconds, 0 or more; never longer than half the cut.</summary>
    public double FadeOutSeconds { get; set; } = 0.05;

    /// <summary>The shape of both fades.</summary>
    public string FadeCurve { get; set; } = FadeWords.Default;

    /// <summary>To what the ends are moved.</summary>
    public CutSnap Snap { get; set; } = CutSnap.Zero;
}

/// <summary>What is looked for in a take.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<CutHow>))]
public enum CutHow
{
    /// <summary>Sounds that stand out; a take whose background is most of what is heard is one long cut.</summary>
    [JsonStringEnumMemberName("auto")]
    Auto = 0,

    /// <summary>Sounds that stand out, each a cut.</summary>
    [JsonStringEnumMemberName("events")]
    Events,

    /// <summary>The whole take.</summary>
    [JsonStringEnumMemberName("whole")]
    Whole,

    /// <summary>The best loop in the take.</summary>
    [JsonStringEnumMemberName("loop")]
    Loop,
}

/// <summary>What becomes of the markers a file carries.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<CutMarkers>))]
public enum CutMarkers
{
    /// <summary>A marker with a length is a cut, in place of what was found there; one without names the sound it stands in or before.</summary>
    [JsonStringEnumMemberName("cut")]
    Cut = 0,

    /// <summary>Markers only give names.</summary>
    [JsonStringEnumMemberName("name")]
    Name,

    /// <summary>They are not looked at.</summary>
    [JsonStringEnumMemberName("ignore")]
    Ignore,
}

/// <summary>In which order cuts of one name are numbered.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<CutOrder>))]
public enum CutOrder
{
    /// <summary>As they come.</summary>
    [JsonStringEnumMemberName("place")]
    Place = 0,

    /// <summary>Those that stand out most first.</summary>
    [JsonStringEnumMemberName("height")]
    Height,

    /// <summary>The longest first.</summary>
    [JsonStringEnumMemberName("length")]
    Length,
}

/// <summary>To what the ends of a cut are moved.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<CutSnap>))]
public enum CutSnap
{
    /// <summary>They stay to the frame.</summary>
    [JsonStringEnumMemberName("none")]
    None = 0,

    /// <summary>Where the mid passes through zero and the side is smallest, within 5 ms.</summary>
    [JsonStringEnumMemberName("zero")]
    Zero,

    /// <summary>The middle of the quietest 5 ms within 50 ms.</summary>
    [JsonStringEnumMemberName("quiet")]
    Quiet,
}

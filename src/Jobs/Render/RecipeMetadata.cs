using System.Text;
using Athwart.Recordings;

namespace Athwart.Jobs.Render;

/// <summary>What a rendered file carries besides its samples, in the words of the chunks.</summary>
public sealed record RecipeMetadata
{
    /// <summary>The `bext` chunk; null for none.</summary>
    public RecipeBroadcast? Broadcast { get; init; }

    /// <summary>The `iXML` chunk as text; null for none.</summary>
    public string? ProductionXml { get; init; }

    /// <summary>The texts of LIST INFO.</summary>
    public IReadOnlyList<InfoTag> Info { get; init; } = [];

    /// <summary>Markers in frames of the output.</summary>
    public IReadOnlyList<Marker> Markers { get; init; } = [];

    /// <summary>From the values a writer takes.</summary>
    public static RecipeMetadata From(BroadcastExtension? broadcast, ProductionNotes? production, IReadOnlyList<InfoTag> info, IReadOnlyList<Marker> markers) => new()
    {
        Broadcast = broadcast is null ? null : RecipeBroadcast.From(broadcast),
        ProductionXml = production is null ? null : Encoding.UTF8.GetString(production.ToBytes()),
        Info = info,
        Markers = markers,
    };

    /// <summary>The iXML notes the text stands for.</summary>
    /// <exception cref="RenderException">The text is no iXML.</exception>
    internal ProductionNotes? Production()
    {
        try
        {
            return ProductionXml is null ? null : ProductionNotes.Parse(Encoding.UTF8.GetBytes(ProductionXml));
        }
        catch (FormatException e)
        {
            throw new RenderException(RenderErrorKind.Recipe, $"The recipe's productionXml is no iXML: {e.Message}.", inner: e);
        }
    }
}

/// <summary>The `bext` chunk as a recipe keeps it; fields as in <see cref="BroadcastExtension"/>.</summary>
public sealed record RecipeBroadcast
{
    /// <summary>What it is.</summary>
    public string Description { get; init; } = "";

    /// <summary>Who or what made it.</summary>
    public string Originator { get; init; } = "";

    /// <summary>The originator's reference.</summary>
    public string OriginatorReference { get; init; } = "";

    /// <summary>yyyy-mm-dd.</summary>
    public string OriginationDate { get; init; } = "";

    /// <summary>hh:mm:ss.</summary>
    public string OriginationTime { get; init; } = "";

    /// <summary>Samples since midnight at the first frame, at the output's rate.</summary>
    public ulong TimeReference { get; init; }

    /// <summary>0, 1 or 2.</summary>
    public int Version { get; init; } = 2;

    /// <summary>UMID in hexadecimal; empty for none.</summary>
    public string Umid { get; init; } = "";

    /// <summary>Integrated loudness in LUFS.</summary>
    public double? LoudnessValue { get; init; }

    /// <summary>Loudness range in LU.</summary>
    public double? LoudnessRange { get; init; }

    /// <summary>Maximum true peak in dBTP.</summary>
    public double? MaxTruePeakLevel { get; init; }

    /// <summary>Maximum momentary loudness in LUFS.</summary>
    public double? MaxMomentaryLoudness { get; init; }

    /// <summary>Maximum short-term loudness in LUFS.</summary>
    public double? MaxShortTermLoudness { get; init; }

    /// <summary>How it was made, lines ended by CR LF.</summary>
    public string CodingHistory { get; init; } = "";

    /// <summary>The same fields.</summary>
    public static RecipeBroadcast From(BroadcastExtension value)
    {
        ArgumentNullException.ThrowIfNull(value);
        return new()
        {
            Description = value.Description,
            Originator = value.Originator,
            OriginatorReference = value.OriginatorReference,
            OriginationDate = value.OriginationDate,
            OriginationTime = value.OriginationTime,
            TimeReference = value.TimeReference,
            Version = value.Version,
            Umid = value.Umid.IsDefaultOrEmpty ? "" : Convert.ToHexStringLower(value.Umid.AsSpan()),
            LoudnessValue = value.LoudnessValue,
            LoudnessRange = value.LoudnessRange,
            MaxTruePeakLevel = value.MaxTruePeakLevel,
            MaxMomentaryLoudness = value.MaxMomentaryLoudness,
            MaxShortTermLoudness = value.MaxShortTermLoudness,
            CodingHistory = value.CodingHistory,
        };
    }

    /// <summary>The chunk.</summary>
    /// <exception cref="RenderException">The UMID is no hexadecimal.</exception>
    public BroadcastExtension ToBroadcast() => new()
    {
        Description = Description,
        Originator = Originator,
        OriginatorReference = OriginatorReference,
        OriginationDate = OriginationDate,
        OriginationTime = OriginationTime,
        TimeReference = TimeReference,
        Version = Version,
        Umid = [.. UmidBytes()],
        LoudnessValue = LoudnessValue,
        LoudnessRange = LoudnessRange,
        MaxTruePeakLevel = MaxTruePeakLevel,
        MaxMomentaryLoudness = MaxMomentaryLoudness,
        MaxShortTermLoudness = MaxShortTermLoudness,
        CodingHistory = CodingHistory,
    };

    private byte[] UmidBytes()
    {
        try
        {
            return Convert.FromHexString(Umid);
        }
        catch (FormatException e)
        {
            throw new RenderException(RenderErrorKind.Recipe, "The recipe's umid is no hexadecimal number.", inner: e);
        }
    }
}

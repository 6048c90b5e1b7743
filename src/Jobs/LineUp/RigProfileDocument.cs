using System.Globalization;
using Athwart.Catalogue;
using Athwart.Jobs.CheckTakes;

namespace Athwart.Jobs.LineUp;

/// <summary>A number with its uncertainty in JSON; the value is null when it cannot be told, and doubt then says why.</summary>
public sealed record NumberDocument(double? Value, double? Uncertainty, string? Doubt)
{
    /// <summary>From a measured number.</summary>
    public static NumberDocument From(Metering.LineUp.Estimate estimate) => estimate.IsKnown
        ? new(JsonNumber.Finite(estimate.Value), JsonNumber.Finite(estimate.Uncertainty), null)
        : new(null, null, estimate.Doubt);
}

/// <summary>One third octave in JSON.</summary>
public sealed record BandDocument(double Hertz, NumberDocument MismatchDecibels, double CorrectionDecibels);

/// <summary>One third octave of noise in JSON.</summary>
public sealed record NoiseBandDocument(double Hertz, double? DecibelsFullScale);

/// <summary>Noise of one channel in JSON.</summary>
public sealed record NoiseDocument(NumberDocument DecibelsFullScale, NumberDocument DecibelsFullScaleA, double? SoundLevelA, NumberDocument LowestHertz, IReadOnlyList<NoiseBandDocument> Bands)
{
    /// <summary>At the recorder's input in dBu(A); null when recorder and gain were not said.</summary>
    public double? InputDecibelsUA { get; init; }
}

/// <summary>A rig as measured, in the form kept in a library; docs/line-up.md documents every field.</summary>
public sealed record RigProfileDocument
{
    /// <summary>The version written by this program.</summary>
    public const int CurrentVersion = 1;

    /// <summary>The version of this layout.</summary>
    public required int AthwartRig { get; init; }

    /// <summary>The program that measured.</summary>
    public required string Program { get; init; }

    /// <summary>The rig's name.</summary>
    public string? Rig { get; init; }

    /// <summary>The day of the line-up; null for a loose recording.</summary>
    public string? Measured { get; init; }

    /// <summary>The session it was made in.</summary>
    public string? Session { get; init; }

    /// <summary>The take.</summary>
    public required string Take { get; init; }

    /// <summary>Frames a second.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>Channel of the mid, from 1; null when it cannot be told.</summary>
    public int? MidChannel { get; init; }

    /// <summary>Channel of the side.</summary>
    public int? SideChannel { get; init; }

    /// <summary>Probability of these roles.</summary>
    public double RolesProbability { get; init; }

    /// <summary>Whether the side's positive lobe points right; null when it cannot be told.</summary>
    public bool? SideInverted { get; init; }

    /// <summary>Probability of that polarity.</summary>
    public double PolarityProbability { get; init; }

    /// <summary>A of the mid's pattern the gain offset rests on.</summary>
    public double MidPattern { get; init; }

    /// <summary>Side over mid in dB.</summary>
    public required NumberDocument GainOffsetDecibels { get; init; }

    /// <summary>Frames by which the side is late.</summary>
    public required NumberDocument DelayFrames { get; init; }

    /// <summary>Metres the side's capsule is ahead.</summary>
    public required NumberDocument SpacingForwardMetres { get; init; }

    /// <summary>Metres it is to the left.</summary>
    public required NumberDocument SpacingLeftMetres { get; init; }

    /// <summary>Degrees from front to the side's positive lobe.</summary>
    public required NumberDocument SideAngleDegrees { get; init; }

    /// <summary>A as front, sides and rear have it.</summary>
    public required NumberDocument MeasuredMidPattern { get; init; }

    /// <summary>The side's response against the mid's.</summary>
    public required IReadOnlyList<BandDocument> Response { get; init; }

    /// <summary>Noise of the mid.</summary>
    public required NoiseDocument MidNoise { get; init; }

    /// <summary>Noise of the side.</summary>
    public required NoiseDocument SideNoise { get; init; }

    /// <summary>What was taken for granted.</summary>
    public required IReadOnlyList<string> Assumptions { get; init; }

    /// <summary>From a report.</summary>
    public static RigProfileDocument From(LineUpReport report, string? rig, Session? session)
    {
        ArgumentNullException.ThrowIfNull(report);
        var r = report.Result;
        return new()
        {
            AthwartRig = CurrentVersion,
            Program = ProgramName.WithVersion,
            Rig = rig,
            Measured = session?.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            Session = session?.Name,
            Take = report.Take,
            SampleRateHertz = r.SampleRateHertz,
            MidChannel = r.FirstIsMid.IsKnown ? report.MidChannel : null,
            SideChannel = r.FirstIsMid.IsKnown ? report.SideChannel : null,
            RolesProbability = Math.Round(r.FirstIsMid.Probability, 3),
            SideInverted = r.SideInverted.IsKnown ? r.SideInverted.Answer : null,
            PolarityProbability = Math.Round(r.SideInverted.Probability, 3),
            MidPattern = r.MidPattern,
            GainOffsetDecibels = NumberDocument.From(r.GainOffset),
            DelayFrames = NumberDocument.From(r.Delay),
            SpacingForwardMetres = NumberDocument.From(r.SpacingForward),
            SpacingLeftMetres = NumberDocument.From(r.SpacingLeft),
            SideAngleDegrees = NumberDocument.From(r.SideAngle),
            MeasuredMidPattern = NumberDocument.From(r.MeasuredMidPattern),
            Response = [.. r.Response.Select(b => new BandDocument(b.NominalHertz, NumberDocument.From(b.Mismatch), Math.Round(b.CorrectionDecibels, 2)))],
            MidNoise = Noise(report.MidNoise, report.MidNoiseSoundLevel) with { InputDecibelsUA = JsonNumber.Finite(report.MidInputNoise, 2) },
            SideNoise = Noise(report.SideNoise, report.SideNoiseSoundLevel) with { InputDecibelsUA = JsonNumber.Finite(report.SideInputNoise, 2) },
            Assumptions = r.Assumptions,
        };
    }

    private static NoiseDocument Noise(Metering.LineUp.ChannelNoiseMeasure n, double? soundLevel) => new(
        NumberDocument.From(n.Level),
        NumberDocument.From(n.WeightedLevel),
        soundLevel is { } level ? JsonNumber.Finite(level) : null,
        NumberDocument.From(n.LowestHertz),
        [.. n.Bands.Select(b => new NoiseBandDocument(b.NominalHertz, JsonNumber.Finite(b.DecibelsFullScale)))]);
}

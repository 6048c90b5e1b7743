using Athwart.Microphones.Air;
using Athwart.Microphones.Hearing;
using Athwart.Microphones.Levels;
using Athwart.Microphones.Rigs;
using Athwart.Microphones.Subjects;
using Athwart.Quantities;

namespace Athwart.Jobs.PlanRig;

/// <summary>A subject that stays where it is.</summary>
/// <param name="WidthMetres">How wide, 0 or more.</param>
/// <param name="DistanceMetres">How far its middle is, above 0.</param>
public sealed record StillSubject(double WidthMetres, double DistanceMetres);

/// <summary>What a rig is planned for. What is null is not known, and what needs it is left out.</summary>
public sealed record Outing
{
    /// <summary>What is to be recorded, for the sheet's heading.</summary>
    public string Title { get; init; } = "";

    /// <summary>Where, for the sheet.</summary>
    public string Place { get; init; } = "";

    /// <summary>When, for the sheet.</summary>
    public string Date { get; init; } = "";

    /// <summary>A subject that stays; not together with <see cref="Path"/>.</summary>
    public StillSubject? Still { get; init; }

    /// <summary>A subject that passes.</summary>
    public SubjectPath? Path { get; init; }

    /// <summary>The level difference at which a sound counts as fully to one side.</summary>
    public Decibels Threshold { get; init; } = Coverage.FullSide;

    /// <summary>RMS level of the quietest wanted sound at the microphones in dB SPL.</summary>
    public double? QuietestDecibels { get; init; }

    /// <summary>RMS level of the loudest sound at the microphones in dB SPL.</summary>
    public double? LoudestDecibels { get; init; }

    /// <summary>How far its peaks lie above that, in dB.</summary>
    public double CrestDecibels { get; init; } = LoudestSound.CommonCrestDecibels;

    /// <summary>Room to keep between the loudest peak and full scale, in dB.</summary>
    public double HeadroomDecibels { get; init; } = GainPlanRequest.CommonHeadroomDecibels;

    /// <summary>Where the side's capsule is from the mid's.</summary>
    public CapsuleOffset? Spacing { get; init; }

    /// <summary>The weather.</summary>
    public AirConditions Air { get; init; } = AirConditions.Mild;

    /// <summary>Sample rate to record at in hertz.</summary>
    public double RateHertz { get; init; } = 48000;

    /// <summary>Bits of a sample.</summary>
    public int WordBits { get; init; } = 24;

    /// <summary>For a recording to be slowed down: the source in third-octave bands at 1 m.</summary>
    public SourceSpectrum? Source { get; init; }

    /// <summary>Its distance in metres; the subject's unless said.</summary>
    public double? SourceMetres { get; init; }

    /// <summary>What about the subject can hurt.</summary>
    public SubjectHazards Hazards { get; init; }

    /// <summary>The monitoring level in the headphones, in dBA at the ear.</summary>
    public double? HeadphonesDecibelsA { get; init; }

    /// <summary>Hours out there, in headphones and beside the loud source.</summary>
    public double? Hours { get; init; }

    /// <summary>The angle the subject fills; null without a subject.</summary>
    public SubjectAngle? Subject => Still is { } still ? SubjectAngle.FromWidth(still.WidthMetres, still.DistanceMetres) : Path?.Angle();

    /// <summary>The loudest sound with its peaks; null when not known.</summary>
    public LoudestSound? Loudest => LoudestDecibels is { } level ? LoudestSound.FromLevel(level, CrestDecibels) : null;

    /// <summary>Metres to the subject, the closest where it passes; null without one.</summary>
    public double? DistanceMetres => SourceMetres ?? Still?.DistanceMetres ?? Path?.ClosestMetres;
}

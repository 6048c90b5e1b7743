using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Subjects;

/// <summary>The angle a subject fills as the microphones see it; azimuth in degrees, positive to the left, 0 where the mid points.</summary>
/// <param name="LeftEdgeDegrees">Azimuth of its left edge, at or left of the right edge.</param>
/// <param name="RightEdgeDegrees">Azimuth of its right edge.</param>
public readonly record struct SubjectAngle(double LeftEdgeDegrees, double RightEdgeDegrees)
{
    /// <summary>Room left of and right of the subject unless said otherwise, 5° on each side: common practice, no source.</summary>
    public const double CommonMarginDegrees = 5;

    /// <summary>The angle from edge to edge, in degrees.</summary>
    public double Degrees => LeftEdgeDegrees - RightEdgeDegrees;

    /// <summary>The azimuth the mid would have to be turned by, in degrees, to sit in the middle of the subject; positive to the left.</summary>
    public double MiddleDegrees => (LeftEdgeDegrees + RightEdgeDegrees) / 2;

    /// <summary>A subject square to the mid and centred on it: 2·atan(width / 2·distance).</summary>
    /// <param name="widthMetres">Its width, 0 or more.</param>
    /// <param name="distanceMetres">Distance of its middle, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is out of range.</exception>
    public static SubjectAngle FromWidth(double widthMetres, double distanceMetres)
    {
        var half = double.RadiansToDegrees(Math.Atan(Require.NotNegative(widthMetres) / (2 * Require.Positive(distanceMetres))));
        return new(half, -half);
    }

    /// <summary>The coverage that suits, in degrees from edge to edge of the stereo image: twice the further edge and a margin on each side; at most 360.</summary>
    /// <param name="marginDegrees">Room on each side, 0 or more.</param>
    public double SuitingCoverageDegrees(double marginDegrees = CommonMarginDegrees)
        => Math.Min(360, 2 * (Math.Max(Math.Abs(LeftEdgeDegrees), Math.Abs(RightEdgeDegrees)) + Require.NotNegative(marginDegrees)));

    /// <summary>How the edges land in a coverage.</summary>
    /// <param name="coverageDegrees">From where a source is fully left to where it is fully right, in degrees, above 0; null when the rig never reaches that.</param>
    public SubjectLanding Land(double? coverageDegrees)
        => coverageDegrees is { } coverage
            ? SubjectLanding.Of(LeftEdgeDegrees / (Require.Positive(coverage) / 2), -RightEdgeDegrees / (coverage / 2))
            : new(null, null, LandingVerdict.Narrow);
}

/// <summary>What becomes of a subject in a coverage.</summary>
public enum LandingVerdict
{
    /// <summary>The further edge comes between 60 % and all of the way to its loudspeaker.</summary>
    Suits,

    /// <summary>The further edge stays within 60 % of the way: the subject keeps to the middle (60 %: common practice, no source).</summary>
    Narrow,

    /// <summary>An edge lies outside the coverage: what is beyond piles up at the loudspeaker.</summary>
    PilesUp,
}

/// <summary>Where a subject's edges land, as shares of the way from the middle to the loudspeaker; 1 is at it, more is beyond the coverage.</summary>
/// <param name="LeftShare">The left edge toward the left loudspeaker, negative when it lands right of the middle; null when the rig never gets fully left.</param>
/// <param name="RightShare">The right edge toward the right loudspeaker, negative when it lands left of the middle.</param>
/// <param name="Verdict">What becomes of it.</param>
/// <remarks>The image is taken to move evenly with the angle inside the coverage, an approximation; the rig's image curve tells it better.</remarks>
public sealed record SubjectLanding(double? LeftShare, double? RightShare, LandingVerdict Verdict)
{
    private const double NarrowShare = 0.6;

    internal static SubjectLanding Of(double left, double right)
        => new(left, right, Math.Max(Math.Abs(left), Math.Abs(right)) switch
        {
            > 1 + 1e-12 => LandingVerdict.PilesUp,
            < NarrowShare => LandingVerdict.Narrow,
            _ => LandingVerdict.Suits,
        });
}

using Athwart.Microphones.Rigs;
using Athwart.Quantities;

namespace Athwart.Microphones.Width;

/// <summary>What turning the image does with a mid A + (1 − A)·cos θ and a figure-8 side.</summary>
/// <param name="Share">t = sin δ/(A + (1 − A)·cos δ): the mid mixed into the side, or the tangent of the rotation.</param>
/// <param name="FrontDifference">Left against right of a source straight ahead.</param>
/// <param name="FrontImage">Where it lands by the tangent law, positive to the left.</param>
/// <param name="MonoFront">What the mono has of a source straight ahead, against before: 0 dB when steered.</param>
/// <param name="MonoAxis">Where the mono's pattern now points; 0 when steered, the other way from the image when rotated.</param>
/// <param name="Words">One sentence without a full stop on the mono.</param>
/// <remarks>Source: derived from the matrix.</remarks>
public sealed record BalanceFigures(double Share, Decibels FrontDifference, Degrees FrontImage, Decibels MonoFront, Degrees MonoAxis, string Words)
{
    /// <summary>The figures of mixing mid into the side; the mono stays.</summary>
    /// <param name="midOmniShare">A, 0 to 1.</param>
    /// <param name="turn">To the left, −45 to 45 degrees.</param>
    /// <param name="sideLevel">Of the decode, between matched microphones; finite.</param>
    public static BalanceFigures OfSteering(double midOmniShare, Degrees turn, Decibels sideLevel)
    {
        var share = ShareOf(midOmniShare, turn);
        return Of(share, sideLevel, default, default, "the mono is not changed at all: what is mixed in lies in the side alone");
    }

    /// <summary>The figures of turning mid and side against each other; the mono turns the other way.</summary>
    /// <param name="midOmniShare">A, 0 to 1.</param>
    /// <param name="turn">To the left, −45 to 45 degrees.</param>
    /// <param name="sideLevel">Of the decode, between matched microphones; finite.</param>
    public static BalanceFigures OfRotation(double midOmniShare, Degrees turn, Decibels sideLevel)
    {
        var share = ShareOf(midOmniShare, turn);
        var cosine = 1 / Math.Sqrt(1 + (share * share));
        var axis = Degrees.FromRadians(-Math.Atan2(share, 1 - midOmniShare));
        var front = Decibels.FromAmplitudeRatio(cosine);
        return Of(share, sideLevel, front, axis, $"the mono changes: it points to {axis} and has a source straight ahead {front} against before");
    }

    private static BalanceFigures Of(double share, Decibels sideLevel, Decibels monoFront, Degrees monoAxis, string words)
    {
        if (!double.IsFinite(sideLevel.Value))
            throw new ArgumentOutOfRangeException(nameof(sideLevel), sideLevel.Value, "a side level is a finite number of decibels here: without a side nothing turns");
        // Of a source straight ahead the side holds share times what the mid holds, steered or rotated.
        var ratio = share * sideLevel.AmplitudeRatio;
        return new(share, Decibels.FromAmplitudeRatio((1 + ratio) / (1 - ratio)), ImagePosition.ByTangentLaw(Math.Clamp(ratio, -1, 1)), monoFront, monoAxis, words);
    }

    private static double ShareOf(double omniShare, Degrees turn)
    {
        if (!(omniShare is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(omniShare), omniShare, "the omni share lies between 0 (figure-8) and 1 (omni); 0.5 is a cardioid");
        if (!(Math.Abs(turn.Value) <= 45))
            throw new ArgumentOutOfRangeException(nameof(turn), turn.Value, "a turn lies between −45 and 45 degrees");
        return Math.Sin(turn.Radians) / (omniShare + ((1 - omniShare) * Math.Cos(turn.Radians)));
    }
}

using System.Globalization;
using Athwart.Jobs.Roles;
using Athwart.Metering;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.CheckTakes;

/// <summary>Findings about what the channels are, from names, functions and the recorder's own decode.</summary>
internal static class RoleFindings
{
    /// <summary>What is noteworthy about the roles of a take.</summary>
    public static IEnumerable<Finding> Of(TakeDescription take, RoleAssignment roles, DecodedPairMatch? match)
    {
        if (roles.SideChannel is null)
            yield return OneChannel(take);
        if (roles.SaysLeftRight)
            yield return SaysLeftRight();
        if (match is not null)
            yield return Decode(match, "channels " + Number(roles.LeftChannel!.Value + 1) + " and " + Number(roles.RightChannel!.Value + 1));
    }

    /// <summary>The finding for a recorder's own left and right, in the take or beside it.</summary>
    /// <param name="match">How well they fit.</param>
    /// <param name="where">Where they are, for people.</param>
    public static Finding Decode(DecodedPairMatch match, string where) => match.Verdict == DecodedPairVerdict.Decode
        ? new()
        {
            Kind = "recorded-decode",
            Severity = FindingSeverity.Note,
            Message = string.Create(CultureInfo.InvariantCulture, $"{where} hold the recorder's own decode of this pair at a side level of {Signless(match.SideLevel.Value):0.00;−0.00} dB, {Residual(match)}."),
            Remedy = "",
            Size = match.SideLevel.Value,
            SizeUnit = "dB",
            Evidence = [new("side level", match.SideLevel.Value, "dB"), new("residual below the pair", match.Residual.Value, "dB")],
        }
        : new()
        {
            Kind = "not-a-decode",
            Severity = FindingSeverity.Note,
            Message = string.Create(CultureInfo.InvariantCulture, $"{where} are not the decode of mid and side: {Residual(match)}."),
            Evidence = [new("residual below the pair", match.Residual.Value, "dB")],
        };

    private static Finding OneChannel(TakeDescription take) => new()
    {
        Kind = "one-channel",
        Severity = FindingSeverity.Caution,
        Message = "The take has one channel: there is no side to decode.",
        Remedy = "If another file holds the side, give both the same name stem, length and time reference, or pass both to the command.",
        File = take.Parts[0].Path,
    };

    private static Finding SaysLeftRight() => new()
    {
        Kind = "says-left-right",
        Severity = FindingSeverity.Caution,
        Message = "The file names its channels left and right: this may be a stereo pair that is decoded already.",
        Remedy = "Listen; if it is mid and side all the same, say so with --mid and --side.",
        Confidence = 0.8,
    };

    private static string Residual(DecodedPairMatch match) => double.IsNegativeInfinity(match.Residual.Value)
        ? "to the last bit"
        : $"residual {match.Residual}";

    // Rounded to two decimals a tiny negative level would read '-0.00'.
    private static double Signless(double decibels) => Math.Abs(decibels) < 0.005 ? 0 : decibels;

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}

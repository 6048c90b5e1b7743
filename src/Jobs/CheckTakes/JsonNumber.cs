using System.Text;

namespace Athwart.Jobs.CheckTakes;

/// <summary>How numbers and names become JSON.</summary>
internal static class JsonNumber
{
    /// <summary>JSON has no −∞ and no NaN: both become null. Six decimals are far finer than any measure here.</summary>
    public static double? Finite(double value) => Finite(value, 6);

    /// <summary>The same to so many decimals; null stays null.</summary>
    public static double? Finite(double? value, int decimals) => value is { } v && double.IsFinite(v) ? Math.Round(v, decimals) : null;

    /// <summary>'TrackFunction' as 'track-function'.</summary>
    public static string Word(string pascal)
    {
        var word = new StringBuilder(pascal.Length + 4);
        foreach (var c in pascal)
        {
            if (char.IsUpper(c) && word.Length > 0)
                word.Append('-');
            word.Append(char.ToLowerInvariant(c));
        }

        return word.ToString();
    }
}

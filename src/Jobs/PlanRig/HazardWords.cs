using Athwart.Jobs.CheckTakes;
using Athwart.Microphones.Hearing;

namespace Athwart.Jobs.PlanRig;

/// <summary>The words for what can hurt, as the commands read them.</summary>
public static class HazardWords
{
    private static readonly SubjectHazards[] Hazards = [.. Enum.GetValues<SubjectHazards>().Where(h => h != SubjectHazards.None)];

    /// <summary>'loud-source', 'headphones', 'railway', ...</summary>
    public static IReadOnlyList<string> All { get; } = [.. Hazards.Select(h => JsonNumber.Word(h.ToString()))];

    /// <summary>Reads some of them, also several in one word with commas between.</summary>
    /// <exception cref="JobException">One is not known.</exception>
    public static SubjectHazards Parse(IEnumerable<string> words)
    {
        ArgumentNullException.ThrowIfNull(words);
        var hazards = SubjectHazards.None;
        foreach (var word in words.SelectMany(w => w.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)))
        {
            var place = All.ToList().FindIndex(known => known.Equals(word, StringComparison.OrdinalIgnoreCase));
            if (place < 0)
                throw new JobException(JobErrorKind.WrongUse, $"'{word}' is no hazard.", $"Write some of {string.Join(", ", All)}.");
            hazards |= Hazards[place];
        }

        return hazards;
    }
}

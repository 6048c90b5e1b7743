using Athwart.Quantities;

namespace Athwart.Recordings;

/// <summary>The findings of one file; each kind once, so that a file of a hundred thousand odd chunks has one finding.</summary>
internal sealed class FindingList(string path)
{
    private readonly List<Finding> _findings = [];

    public IReadOnlyList<Finding> All => _findings;

    public bool Has(string kind) => _findings.Exists(f => string.Equals(f.Kind, kind, StringComparison.Ordinal));

    public void Add(string kind, FindingSeverity severity, string message, string remedy, params ReadOnlySpan<Evidence> evidence)
    {
        if (!Has(kind))
            _findings.Add(new Finding { Kind = kind, Severity = severity, Message = message, Remedy = remedy, File = path, Evidence = evidence.ToArray() });
    }

    public void Add(Finding finding)
    {
        if (!Has(finding.Kind))
            _findings.Add(finding with { File = path });
    }
}
